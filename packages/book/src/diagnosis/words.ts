import { BEYOND_CALIBRATION, type CalibratedConstant, type Calibration } from './calibration.ts';
import { type Diagnosis, STRAINED } from './diagnosis.ts';
import type { Family, FamilyKind } from './family.ts';

/** How likely, for somebody who does not think in figures. */
export function chanceWords(p: number): string {
  if (p >= 0.95) return 'almost certain';
  if (p >= 0.65) return 'likely';
  if (p >= 0.35) return 'may well be';
  if (p >= 0.1) return 'possible';
  if (p >= 0.01) return 'unlikely';
  return 'all but ruled out';
}

const AREAS: Readonly<Partial<Record<FamilyKind, string>>> = {
  bearings: 'bearings',
  'pump-faces': 'pump',
  'pump-tips': 'pump',
  'relief-open': 'relief valve',
  spring: 'relief valve',
};

const joined = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
const capital = (words: string): string => (words[0]?.toUpperCase() ?? '') + words.slice(1);

/** What the gauge leaves open, in a sentence: “Bearings and pump cannot be told apart by this gauge alone.” */
export function alikeWords(group: readonly Family[], gauges: number): string {
  const by = gauges > 1 ? 'these gauges' : 'this gauge';
  const names = (families: readonly Family[]): string => families.map(({ name }) => name).join('; ');
  const faults = group.filter(({ kind }) => kind !== 'nothing');
  if (faults.length < group.length)
    return `Too small for ${by} to show, and so not ruled out: ${names(faults)}.`;
  const areas = Object.entries(AREAS).filter(([kind]) => group.some((family) => family.kind === kind));
  const placed = group.every(({ kind }) => AREAS[kind] !== undefined || kind === 'worn-throughout');
  const named = [...new Set(areas.map(([, area]) => area))];
  return placed && named.length > 1
    ? `${capital(joined(named))} cannot be told apart by ${by} alone. Each of these fits the readings: ${names(group)}.`
    : `These cannot be told apart by ${by} alone: ${names(group)}.`;
}

/** Where no single fault comes near the readings; undefined where one does. */
export const strainWords = ({ fit }: Diagnosis): string | undefined =>
  fit < STRAINED
    ? 'No single fault of this list explains the readings well: there may be two at once, or a reading is wrong. Read again where the fit is worst before believing any of it.'
    : undefined;

/** One constant, as assumed and as the readings set it. */
export function constantWords({ doubt, value, u, assumed }: CalibratedConstant): string {
  const kelvin = doubt.constant !== undefined && 'kelvinAt' in doubt.constant;
  const shown = (x: number, ux: number): string =>
    kelvin
      ? `${x >= 0 ? '+' : '−'}${Math.abs(x).toFixed(1)} ±${ux.toFixed(1)} K`
      : `${x.toFixed(2)} ±${ux.toFixed(2)} times`;
  return `${doubt.name}: ${shown(value, u)} (assumed ${shown(assumed.value, assumed.u)})`;
}

/** What the calibration rests on, never left unsaid. */
export function calibrationWords({ readings, distance }: Calibration): string {
  const n = readings.length;
  if (n === 0)
    return 'No gauge readings with a temperature and a stated gauge: the model’s constants stand as assumed.';
  const by = `Calibrated by ${n} gauge reading${n > 1 ? 's' : ''}`;
  return distance > BEYOND_CALIBRATION
    ? `${by}, which lie ${distance.toFixed(1)} deviations from what the assumed constants allow: look for a fault before trusting a calibration.`
    : `${by}, whose distance from the assumed constants is ${distance.toFixed(1)} deviations.`;
}
