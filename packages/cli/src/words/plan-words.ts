import type { Assessed, Planning, PlanSet, RepairPlan, Requirement } from '@fettle/book';
import { placeText } from '@fettle/book';
import { printQuantity } from '@fettle/core';
import { wrapped } from './table.ts';

const WIDTH = 108;

/** A plan with what it was worked out from. */
export type Planned = Planning & RepairPlan;

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

export const verdictWords = ({ characteristic, place }: Assessed): string => {
  const at = placeText(place);
  return at === '' ? characteristic.name : `${characteristic.name} ${at}`;
};

export const listed = (requirements: readonly Requirement[]): string =>
  requirements.map(({ judgement }) => verdictWords(judgement)).join('; ');

/** Long words under one another, indented. */
export const set = (text: string, indent = '  '): string[] =>
  wrapped(text, WIDTH - indent.length, '  ').map((line) => indent + line);

export type Name = (id: string) => string;

export const conditionWords = ({ running }: Planning['conditions'][number]): string =>
  `${printQuantity(running.speed, 'rpm', 0)} and ${printQuantity(running.temperature, 'degC', 0)}`;

/** What one set has that the other has not. */
export function difference(from: PlanSet, to: PlanSet, name: Name): string {
  const more = to.offers.filter((id) => !from.offers.includes(id)).map(name);
  const less = from.offers.filter((id) => !to.offers.includes(id)).map(name);
  return [
    ...(more.length > 0 ? [`with ${more.join(', ')}`] : []),
    ...(less.length > 0 ? [`without ${less.join(', ')}`] : []),
  ].join(', ');
}
