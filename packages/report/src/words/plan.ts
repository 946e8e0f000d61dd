import { type Assessed, placeText, type Requirement } from '@fettle/book';

/** A sum without a sign of currency: the job has one money and does not say which. */
export const money = (sum: number): string => (Number.isInteger(sum) ? String(sum) : sum.toFixed(2));

/** `72 %`; near the ends one figure more, and never a certainty that is none. */
export function chanceWords(chance: number): string {
  if (chance > 0.999) return 'over 99.9 %';
  if (chance < 0.001) return 'under 0.1 %';
  return `${(chance * 100).toFixed(chance > 0.95 || chance < 0.05 ? 1 : 0)} %`;
}

export function daysWords(days: number): string {
  if (days === 0) return 'at once';
  const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
  return days % 7 === 0 ? count(days / 7, 'week') : count(days, 'day');
}

/** Places of one characteristic together: `Main journal 1, 3; Bore wear 3`. */
export function verdictList(all: readonly Assessed[]): string {
  const places = new Map<string, string[]>();
  for (const { characteristic, place } of all) {
    const at = placeText(place);
    places.set(characteristic.name, [...(places.get(characteristic.name) ?? []), ...(at === '' ? [] : [at])]);
  }
  return [...places].map(([name, at]) => `${name} ${at.join(', ')}`.trimEnd()).join('; ');
}

export const requirementList = (all: readonly Requirement[]): string =>
  verdictList(all.map(({ judgement }) => judgement));
