import {
  asFittedNow,
  asFound,
  type Book,
  type Calibration,
  calibrated,
  diagnosisWords,
  pressureDecimals,
  Reckoning,
} from '@fettle/book';
import { CATALOGUE, inUnit, printQuantity } from '@fettle/core';

/** The model's assumed constants set by real gauge readings: of the engine as it came and, once read, as it is now. */
export function calibrationPages(book: Book, unit: string) {
  const started = book.gaugeReadings.some(({ body }) => body.when !== 'as-found');
  const engines = [
    { engine: 'The engine as found', when: 'as-found', parts: asFound } as const,
    ...(started ? [{ engine: 'The engine as fitted now', when: 'since', parts: asFittedNow } as const] : []),
  ];
  return engines.map(({ engine, when, parts }) => {
    const found = calibrated(book, new Reckoning(book, parts(book), CATALOGUE), when);
    if (!found.ok)
      return {
        engine,
        words: `Not calibrated: ${found.issues[0]!.message}`,
        constants: [],
        pressures: [],
      };
    const { readings } = found.value;
    return {
      engine,
      words: diagnosisWords.calibrationWords(found.value),
      constants: readings.length === 0 ? [] : found.value.constants.map(diagnosisWords.constantWords),
      pressures: readings.length === 0 ? [] : pressureRows(found.value, unit),
    };
  });
}

function pressureRows({ pressures }: Calibration, unit: string) {
  const decimals = pressureDecimals(unit);
  const shown = ({ value, u }: { readonly value: number; readonly u: number }): string =>
    `${inUnit(value, unit).toFixed(decimals)} ±${inUnit(2 * u, unit).toFixed(decimals)} ${unit}`;
  return pressures.map((one) => ({
    sump: printQuantity(one.temperature, 'degC', 0),
    crank: printQuantity(one.speed, 'rpm', 0),
    assumed: shown(one.uncalibrated),
    calibrated: shown(one.calibrated),
  }));
}
