import {
  type Assessed,
  type LargestDoubt,
  type NextMove,
  type Operand,
  placeText,
  type Status,
} from '@fettle/book';
import { inUnit } from '@fettle/core';
import { limitRailText } from '@fettle/draw';
import { halfBand, limitWords, operandWords } from './quantity.ts';

/** A word and a shape: never one by itself. */
export const STATUS_WORDS: Readonly<Record<Status, string>> = {
  in: '○ IN',
  out: '✖ OUT',
  'cannot-tell': '◐ CANNOT TELL',
  missing: '… NOT READ',
  'no-limits': '· no limits',
};

/** The line of the sheet, where it has a number. */
export const lineOf = ({ characteristic }: Assessed): string => characteristic.line ?? '';

/** `crank.main-journal@1`, as `fettle why` takes it. */
export function nameOf(judgement: Assessed): string {
  const at = placeText(judgement.place);
  return at === '' ? judgement.characteristic.id : `${judgement.characteristic.id}@${at}`;
}

/** The limits that decide, in words. */
export function decidingLimits(judgement: Assessed): string {
  const verdict = judgement.governing && judgement.verdicts[judgement.governing];
  if (judgement.characteristic.kind === 'seen') return `wanted: ${judgement.characteristic.wanted ?? ''}`;
  return verdict ? `${limitWords(judgement.characteristic, verdict.limits)} (${verdict.set})` : '';
}

export function valueWords(judgement: Assessed): string {
  if (judgement.sight) return judgement.sight.body.found;
  if (judgement.characteristic.kind === 'seen') return 'not seen';
  const value = operandWords(judgement.characteristic, judgement.operand);
  return judgement.worstAt ? `${value} at ${placeText(judgement.worstAt)}` : value;
}

/** The rail of a judgement; undefined where there is nothing to draw. */
export function railOf(judgement: Assessed, width?: number): string | undefined {
  const verdict = judgement.governing && judgement.verdicts[judgement.governing];
  const { operand } = judgement;
  if (!verdict || operand.kind === 'missing') return undefined;
  const block =
    operand.kind === 'value'
      ? { from: operand.q.value - halfBand(operand.q), to: operand.q.value + halfBand(operand.q) }
      : { from: operand.lower?.value, to: operand.upper?.value };
  return limitRailText({ ...verdict.limits, ...block }, width);
}

/** What to do next, in a sentence. */
export function moveWords(judgement: Assessed, next: NextMove): string {
  const { characteristic } = judgement;
  switch (next.move) {
    case 'measure': {
      const names = [...new Set(next.what.map((one) => one.characteristic.name))];
      const [only] = next.what;
      return names.length === 1 && next.what.length > 1
        ? `Read ${names[0]} at ${next.what.map(({ place }) => placeText(place)).join(', ')}.`
        : names.length === 1 && only
          ? `Read ${only.characteristic.name}${Object.keys(only.place).length > 0 ? ` at ${placeText(only.place)}` : ''}.`
          : `Read ${names.join(', ')}.`;
    }
    case 'look':
      return `Look at it; wanted: ${next.wanted}.`;
    case 'try-leaf':
      return `Try the leaf ${next.leaf}; at most ${next.triesLeft} ${next.triesLeft === 1 ? 'try' : 'tries'} with the leaves owned.`;
    case 'use-instrument':
      return next.characteristic.id === characteristic.id
        ? `${next.name} would decide, if it reads the same.`
        : `Read ${next.characteristic.name} with ${next.name}: that would decide, if it reads the same.`;
    case 'finer-than-owned':
      return `Nothing owned is fine enough: it has to be known to ±${significant(judgement, 2 * next.needed)} at about 95 %.${mostlyWords(next.mostly)} Borrow, have it measured, or decide without.`;
    case 'on-the-limit':
      return 'It reads on the limit itself: no instrument settles that. Measure again, or treat it as out.';
    case 'does-not-matter':
      return `It does not matter: ${next.because.characteristic.name} ${placeText(next.because.place)} is out on the same part, which decides for both.`;
    case 'settle-disagreement':
      return `The witnesses disagree. Clean up, read ${characteristic.name} again both ways, and strike the wrong one.`;
  }
}

const mostlyWords = (mostly: LargestDoubt | undefined): string =>
  mostly
    ? ` Most of the doubt comes from ${mostly.name} (${mostly.of.map(({ name }) => name).join(', ')}): read that finer first.`
    : '';

/** Two significant figures of a doubt, in the characteristic's unit. */
function significant({ characteristic }: Assessed, si: number): string {
  if (characteristic.kind === 'seen' || characteristic.unit === undefined)
    return String(Number(si.toPrecision(2)));
  return `${Number(inUnit(si, characteristic.unit).toPrecision(2))} ${characteristic.unit}`;
}

/** Where mean and worst would print alike, one more figure shows that they are not. */
function meanOperandWords({ characteristic, operand }: Assessed, mean: Operand): string {
  const words = operandWords(characteristic, mean);
  if (words !== operandWords(characteristic, operand)) return words;
  const [, decimals] = /^-?\d+\.?(\d*)/.exec(words) ?? [];
  return operandWords({ ...characteristic, decimals: (decimals?.length ?? 0) + 1 }, mean);
}

/** A contrast worth saying: the worst place decides, and the mean would have said something else. */
export function meanWords(judgement: Assessed): string | undefined {
  const { mean, status } = judgement;
  if (!mean || mean.verdict === status || status === 'missing') return undefined;
  return `the mean, ${meanOperandWords(judgement, mean.operand)}, would say ${mean.verdict === 'cannot-tell' ? 'cannot tell' : mean.verdict}`;
}
