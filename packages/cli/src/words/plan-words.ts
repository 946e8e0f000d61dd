import { moneyWords, type Planning, planReasonWords, planWords, type RepairPlan } from '@fettle/book';
import { wrapped } from './table.ts';

const WIDTH = 108;

/** A plan with what it was worked out from. */
export type Planned = Planning & RepairPlan;

export const { money, chance: chanceWords, daysWords } = moneyWords;
export const { difference } = planWords;
export const { conditionWords } = planReasonWords;
export type Name = planWords.OfferName;

/** Long words under one another, indented. */
export const set = (text: string, indent = '  '): string[] =>
  text === '' ? [] : wrapped(text, WIDTH - indent.length, '  ').map((line) => indent + line);
