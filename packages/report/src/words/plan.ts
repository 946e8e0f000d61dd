import { type Assessed, moneyWords, placeText, planWords, type Requirement } from '@fettle/book';

export const { money, chance: chanceWords, daysWords } = moneyWords;
export const { difference } = planWords;

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
