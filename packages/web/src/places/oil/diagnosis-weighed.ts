import {
  asFittedNow,
  asFound,
  type Book,
  type Calibration,
  type Catalogue,
  calibrated,
  type Diagnosis,
  diagnosed,
  type FilledParameter,
  filledCircuit,
  Reckoning,
} from '@fettle/book';
import { failed, type Outcome, ok } from '@fettle/core';
import type { Grounds } from './grounds.ts';

export interface WeighedFaults {
  readonly diagnosis: Diagnosis;
  /** Absent where clearances are not taken as measured. */
  readonly calibration?: Calibration;
  /** What the circuit was filled with, where clearances are taken as measured. */
  readonly parameters?: readonly FilledParameter[];
}

/** Every fault weighed against the gauge readings; takes the better part of a second. */
export function weighedFaults(book: Book, catalogue: Catalogue, grounds: Grounds): Outcome<WeighedFaults> {
  const when = grounds === 'now' ? 'since' : 'as-found';
  const known = grounds === 'before-strip' ? 'before-strip' : 'measured';
  const reckoning = new Reckoning(book, grounds === 'now' ? asFittedNow(book) : asFound(book), catalogue);
  try {
    const diagnosis = diagnosed(book, reckoning, { known, when });
    if (!diagnosis.ok) return diagnosis;
    if (grounds === 'before-strip') return ok({ diagnosis: diagnosis.value });
    const calibration = calibrated(book, reckoning, when);
    if (!calibration.ok) return calibration;
    const circuit = filledCircuit(book, reckoning);
    return ok({
      diagnosis: diagnosis.value,
      calibration: calibration.value,
      ...(circuit.ok && { parameters: circuit.value.parameters }),
    });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return failed({
      code: 'oil/no-balance',
      at: '',
      got: 'clearances with which the circuit finds no balance',
      wanted: 'clearances an engine runs with',
      message: `The faults cannot be weighed: ${error.message}`,
    });
  }
}
