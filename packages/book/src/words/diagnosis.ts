import { inUnit } from '@fettle/core';
import { BEYOND_CALIBRATION, type CalibratedConstant, type Calibration } from '../diagnosis/calibration.ts';
import { type DiagnosedFamily, type Diagnosis, STRAINED } from '../diagnosis/diagnosis.ts';
import type { OutcomeMeaning, RankedTest } from '../diagnosis/expected-information.ts';
import type { Family, FamilyKind } from '../diagnosis/family.ts';

/** Families less likely than this are named together in one line. */
const LEAST = 0.01;
/** A test that tells less is not worth its work [bit]. */
const TELLING = 0.05;

export const percent = (p: number): string => (p < 0.005 ? 'under 1 %' : `${Math.round(p * 100)} %`);

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

/** Two figures of the middle one, and the edges to the same place. */
const decimalsOf = (middle: number): number =>
  middle === 0 ? 1 : Math.max(0, 1 - Math.floor(Math.log10(Math.abs(middle))));

/** How likely a fault is in words, and how bad it then would be. */
export function severityWords({ family, severity, probability }: DiagnosedFamily): string {
  const how = chanceWords(probability);
  if (!severity || !family.severity) return how;
  const decimals = decimalsOf(severity.middle);
  const [middle, from, to] = [severity.middle, severity.from, severity.to].map((one) =>
    one.toFixed(decimals),
  );
  return `${how}; then about ${from === to ? middle : `${middle} (${from} to ${to})`} ${family.severity.of}`;
}

/** The faults worth a line each, and those named together: `Under 1 % together: …`, empty where there are none. */
export function byLikelihood({ families }: Diagnosis): {
  readonly shown: readonly DiagnosedFamily[];
  readonly rest: string;
} {
  const few = families.filter(({ probability }) => probability < LEAST);
  const together = few.reduce((sum, { probability }) => sum + probability, 0);
  return {
    shown: families.filter(({ probability }) => probability >= LEAST),
    rest:
      few.length === 0
        ? ''
        : `${capital(percent(together))} together: ${few.map(({ family }) => family.name).join('; ')}.`,
  };
}

/** What is read in a test: `under 16.5 psi`, `16.5 to 31.6 psi`, `3.2 L/min or more`. */
export function outcomeWords(
  { probe }: RankedTest,
  { from, to, words }: OutcomeMeaning,
  unit: string,
): string {
  if (words !== undefined) return words;
  const read = probe?.measures === 'flow' ? 'L/min' : unit;
  const shown = (value: number): string => inUnit(value, read).toPrecision(3);
  if (from === undefined) return to === undefined ? 'whatever it shows' : `under ${shown(to)} ${read}`;
  return to === undefined ? `${shown(from)} ${read} or more` : `${shown(from)} to ${shown(to)} ${read}`;
}

/** Which faults lead after an outcome, with their chances. */
export const leadingWords = (order: readonly Family[], { families }: OutcomeMeaning): string =>
  families
    .map((p, f) => ({ p, name: order[f]!.name }))
    .sort((a, b) => b.p - a.p)
    .filter(({ p }, i) => i === 0 || (i < 3 && p >= 0.1))
    .map(({ p, name }) => `${name} ${percent(p)}`)
    .join(', ');

/** The tests after the first that tell enough to be named. */
export const furtherTests = ({ tests }: Diagnosis): readonly RankedTest[] =>
  tests.slice(1).filter(({ bits }) => bits >= TELLING);

/** Where even the best test tells next to nothing; empty where it does tell. */
export const littleToldWords = ({ bits }: RankedTest): string =>
  bits < TELLING
    ? 'None of the tests known here would tell much more than is known already; this is the most telling.'
    : '';

/** How a test is done, what is read, and what it costs. */
export const testWords = ({ plan, probe, bits }: RankedTest): string =>
  `${plan.how}${probe ? ` Read: ${probe.words}.` : ''} About ${plan.hours} h of work (assumed); expected to tell ${bits.toFixed(2)} bit.`;

/** With the engine in parts a test that needs it running has to wait; empty where it need not. */
export const waitingWords = ({ known, when }: Diagnosis): string =>
  known === 'measured' && when === 'as-found'
    ? 'With the engine apart, what needs it running waits until it is together.'
    : '';

/** Said where there is nothing to weigh. */
export const NO_READINGS =
  'No gauge reading can be weighed: what follows is only what is assumed beforehand.';

export const leftOutWords = ({ said, why }: Diagnosis['leftOut'][number]): string =>
  `Left out: ${said.pressure} at ${said.speed}: ${why}.`;

/** What a diagnosis rests on, never left unsaid. */
export const DIAGNOSIS_GROUNDS =
  'One fault at a time. How likely each is beforehand, how bad it may be and how far the model is out are assumed, without a source; the gauge’s error is as declared, the part common to its readings kept in common. A figure of this kind says where to look first, not what is wrong.';
