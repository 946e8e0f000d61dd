import { type Assessed, NO_ANSWER, nextMoveWords, type Operand, placeText, type Status } from '@fettle/book';
import { limitRailText } from '@fettle/draw';
import { halfBand, limitWords, operandWords } from './quantity.ts';

export const { moveWords, furtherWords } = nextMoveWords;

/** A word and a shape: never one by itself. */
export const STATUS_WORDS: Readonly<Record<Status, string>> = {
  in: '○ IN',
  out: '✖ OUT',
  'cannot-tell': '◐ CANNOT TELL',
  missing: '… NOT READ',
  'no-limits': '· no limits',
};

/** The verdict; what was read and still gives no figure was not left unread. */
export const statusWords = ({ status, cautions }: Assessed): string =>
  status === 'missing' && cautions.some(({ code }) => code === NO_ANSWER)
    ? '… NO FIGURE'
    : STATUS_WORDS[status];

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
  if (judgement.cautions.some(({ code }) => code === NO_ANSWER) && judgement.operand.kind === 'missing')
    return 'cannot be worked out';
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
