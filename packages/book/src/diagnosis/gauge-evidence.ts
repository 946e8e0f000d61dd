import { parseQuantity } from '@fettle/core';
import { standardUncertaintyOf } from '../assess/instrument.ts';
import type { Book, Written } from '../fold/book.ts';

/** A gauge reading with all that is needed to weigh it. */
export interface GaugeEvidence {
  readonly entry: string;
  readonly said: Written<'gauge-reading'>['body'];
  /** [Pa] */
  readonly pressure: number;
  /** Of the crank [rad/s] */
  readonly speed: number;
  /** Of the sump [K] */
  readonly temperature: number;
  readonly grade: string;
  readonly instrument: string;
  /** Standard uncertainty [Pa]. */
  readonly u: number;
  /** Share of its variance common to all readings of this gauge. */
  readonly common: number;
}

export interface LeftOut {
  readonly entry: string;
  readonly said: Written<'gauge-reading'>['body'];
  readonly why: string;
}

/** Which engine the readings were taken on: as it came, or since it was put together. */
export type When = 'as-found' | 'since';

/** The gauge readings that can be weighed, and those that cannot, each with why. */
export function gaugeEvidence(
  book: Book,
  when: When,
): { readings: readonly GaugeEvidence[]; leftOut: readonly LeftOut[] } {
  const readings: GaugeEvidence[] = [];
  const leftOut: LeftOut[] = [];
  const oil = book.sheet?.oil;
  for (const { entry, body, standing } of book.gaugeReadings) {
    if ((body.when === 'as-found') !== (when === 'as-found')) continue;
    const left = (why: string) => leftOut.push({ entry: entry.id, said: body, why });
    if (standing !== 'counts') {
      left('its gauge failed a check: take it again with one that is right');
      continue;
    }
    const pressure = parseQuantity(body.pressure, 'pressure');
    const speed = parseQuantity(body.speed, 'speed');
    const temperature =
      body.temperature === undefined ? undefined : parseQuantity(body.temperature, 'temperature');
    const instrument = book.instruments.get(body.instrument);
    if (!pressure.ok || !speed.ok || temperature?.ok === false) {
      left('it does not read as a pressure at a speed and a temperature');
      continue;
    }
    if (!temperature) {
      left('without the temperature of the oil a pressure says little');
      continue;
    }
    if (!(speed.value.value > 0)) {
      left('the engine was not turning');
      continue;
    }
    const u = instrument && standardUncertaintyOf(instrument, 'pressure', pressure.value.value);
    if (!instrument || u === undefined) {
      left('its gauge has no stated uncertainty');
      continue;
    }
    const grade = body.oil ?? oil?.fill ?? '';
    if (!oil?.grades[grade]) {
      left(`the sheet has no oil “${grade}”`);
      continue;
    }
    readings.push({
      entry: entry.id,
      said: body,
      pressure: pressure.value.value,
      speed: speed.value.value,
      temperature: temperature.value.value,
      grade,
      instrument: body.instrument,
      u,
      common: instrument.body.uncertainty.common_share,
    });
  }
  return { readings, leftOut };
}
