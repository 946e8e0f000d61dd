import type { Noise } from '../assess/range-noise.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { uncertaintyWords } from './quantity.ts';

/** What greatest less least takes up of the readings' own errors. */
export const rangeNoiseWords = (characteristic: Characteristic, { count, mean }: Noise): string =>
  `Greatest less least reads wide: of ${count} readings of one and the same size it would show ${uncertaintyWords(characteristic, mean)} on average, by their own errors alone. It is not taken off, so “in” is on the safe side, and a figure near the limit may be the reading’s rather than the part’s.`;
