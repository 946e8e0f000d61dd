import {
  type Assessed,
  moneyWords,
  type Planning,
  placeText,
  planWords,
  type RepairPlan,
  type Requirement,
} from '@fettle/book';
import { printQuantity } from '@fettle/core';
import { wrapped } from './table.ts';

const WIDTH = 108;

/** A plan with what it was worked out from. */
export type Planned = Planning & RepairPlan;

export const { money, chance: chanceWords, daysWords } = moneyWords;
export const { difference } = planWords;
export type Name = planWords.OfferName;

export const verdictWords = ({ characteristic, place }: Assessed): string => {
  const at = placeText(place);
  return at === '' ? characteristic.name : `${characteristic.name} ${at}`;
};

export const listed = (requirements: readonly Requirement[]): string =>
  requirements.map(({ judgement }) => verdictWords(judgement)).join('; ');

/** Long words under one another, indented. */
export const set = (text: string, indent = '  '): string[] =>
  wrapped(text, WIDTH - indent.length, '  ').map((line) => indent + line);

export const conditionWords = ({ running }: Planning['conditions'][number]): string =>
  `${printQuantity(running.speed, 'rpm', 0)} and ${printQuantity(running.temperature, 'degC', 0)}`;
