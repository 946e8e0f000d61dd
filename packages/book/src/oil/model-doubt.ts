import { linear, term, type Uncertain, uncertain } from '@fettle/core';

/**
 * Standard uncertainty of the oil model itself, as a share of the pressure it predicts: discharge coefficients,
 * eccentricities, film temperatures and leak paths are assumed. A guess, no source; shown wherever it counts.
 */
export const MODEL_SHARE = 0.1;

/** A predicted pressure with the model's own doubt beside that of the readings. */
export const withModelDoubt = (predicted: Uncertain): Uncertain =>
  linear([
    { factor: 1, of: predicted },
    { factor: 1, of: uncertain(0, term('oil-model', MODEL_SHARE * Math.abs(predicted.value))) },
  ]);
