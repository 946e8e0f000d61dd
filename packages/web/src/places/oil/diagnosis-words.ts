import { type DiagnosedFamily, diagnosisWords, type Family, type OutcomeMeaning } from '@fettle/book';
import { inUnit } from '@fettle/core';

export const percent = (p: number): string => (p < 0.005 ? 'under 1 %' : `${Math.round(p * 100)} %`);

/** Two figures of the middle one, and the edges to the same place. */
const decimalsOf = (middle: number): number =>
  middle === 0 ? 1 : Math.max(0, 1 - Math.floor(Math.log10(Math.abs(middle))));

/** How likely in words, and how bad it then would be. */
export function severityWords({ family, severity, probability }: DiagnosedFamily): string {
  const how = diagnosisWords.chanceWords(probability);
  if (!severity || !family.severity) return how;
  const decimals = decimalsOf(severity.middle);
  const [middle, from, to] = [severity.middle, severity.from, severity.to].map((one) =>
    one.toFixed(decimals),
  );
  return `${how}; then about ${from === to ? middle : `${middle} (${from} to ${to})`} ${family.severity.of}`;
}

/** `under 16.5 psi`, `16.5 to 31.6 psi`, `3.2 L/min or more`. */
export function rangeWords({ from, to, words }: OutcomeMeaning, unit: string): string {
  if (words !== undefined) return words;
  const shown = (value: number): string => inUnit(value, unit).toPrecision(3);
  if (from === undefined) return to === undefined ? 'whatever it shows' : `under ${shown(to)} ${unit}`;
  return to === undefined ? `${shown(from)} ${unit} or more` : `${shown(from)} to ${shown(to)} ${unit}`;
}

/** Which faults lead after an outcome. */
export const leading = (order: readonly Family[], families: readonly number[]): string =>
  families
    .map((p, f) => ({ p, name: order[f]!.name }))
    .sort((a, b) => b.p - a.p)
    .filter(({ p }, i) => i === 0 || (i < 3 && p >= 0.1))
    .map(({ p, name }) => `${name} ${percent(p)}`)
    .join(', ');
