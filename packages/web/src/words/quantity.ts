import { type Characteristic, type Limits, type Operand, quantityWords as words } from '@fettle/book';
import { unitOf } from '../state/units.ts';

// The common words for quantities, in the unit chosen on this page.

export const { halfBand } = words;
export const shown = (characteristic: Characteristic, si: number): string =>
  words.shown(characteristic, si, unitOf(characteristic));
export const bare = (characteristic: Characteristic, si: number): string =>
  words.bare(characteristic, si, unitOf(characteristic));
export const operandWords = (characteristic: Characteristic, operand: Operand): string =>
  words.operandWords(characteristic, operand, unitOf(characteristic));
export const limitWords = (characteristic: Characteristic, limits: Limits): string =>
  words.limitWords(characteristic, limits, unitOf(characteristic));
export const uncertaintyWords = (characteristic: Characteristic, si: number): string =>
  words.uncertaintyWords(characteristic, si, unitOf(characteristic));
