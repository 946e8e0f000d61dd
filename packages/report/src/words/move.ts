import { type Assessed, type Further, type NextMove, nextMoveWords, placeText } from '@fettle/book';
import { inUnit } from '@fettle/core';
import { joined, unitSign } from './unit.ts';

/** Paper has its own signs of units. */
const SAYING: nextMoveWords.Saying = {
  place: ({ places }, place) => placeText(place, places),
  doubt: (characteristic, si) => {
    if (characteristic.kind === 'seen' || characteristic.unit === undefined)
      return String(Number(si.toPrecision(2)));
    const value = Number(inUnit(si, characteristic.unit).toPrecision(2));
    return joined(String(value), unitSign(characteristic.unit));
  },
};

/** What to do next, in a sentence. */
export const moveWords = (judgement: Assessed, next: NextMove): string =>
  nextMoveWords.moveWords(judgement, next, SAYING);

/** What could decide it and how likely, in a sentence each. */
export const furtherWords = (judgement: Assessed, further: Further): string[] =>
  nextMoveWords.furtherWords(judgement, further, SAYING);
