import { type Assessed, type NextMove, nextMoveWords, type Status } from '@fettle/book';
import { further } from '../state/further.ts';
import { allJudged, assessed } from '../state/job.ts';
import { placeWords } from './place.ts';
import { limitWords, operandWords, uncertaintyWords } from './quantity.ts';

export const STATUS_WORDS: Readonly<Record<Status, string>> = {
  in: 'In',
  out: 'Out',
  'cannot-tell': 'Cannot tell',
  missing: 'Not read',
  'no-limits': 'No limits',
};

/** The limits that decide, in words. */
export function decidingLimits(judgement: Assessed): string {
  const { characteristic, governing } = judgement;
  if (characteristic.kind === 'seen') return characteristic.wanted ? `wanted: ${characteristic.wanted}` : '';
  const printed = governing && characteristic.limits?.[governing];
  const verdict = governing && (judgement.verdicts[governing] ?? judgement.members[0]?.verdicts[governing]);
  if (verdict) return limitWords(characteristic, verdict.limits);
  if (!printed) return characteristic.no_limits ? 'no limits given' : 'no limits';
  const { lower, upper } = printed;
  if (lower !== undefined && upper !== undefined) return `${lower} to ${upper}`;
  return lower !== undefined ? `at least ${lower}` : `at most ${upper ?? ''}`;
}

export function valueWords(judgement: Assessed): string {
  if (judgement.sight) return judgement.sight.body.found;
  if (judgement.characteristic.kind === 'seen') return 'not looked at';
  const value = operandWords(judgement.characteristic, judgement.operand);
  return judgement.worstAt ? `${value} at ${placeWords(judgement.characteristic, judgement.worstAt)}` : value;
}

const SAYING: nextMoveWords.Saying = { place: placeWords, doubt: uncertaintyWords, short: true };

/** What to do next, in a sentence; and what could decide it and how likely, once that part has been fetched. */
export const moveWords = (judgement: Assessed, next: NextMove): string =>
  [
    nextMoveWords.moveWords(judgement, next, SAYING),
    ...(allJudged.value ? further.value(assessed.value.reckoning, judgement, SAYING) : []),
  ].join(' ');

/** A contrast worth saying: the worst place decides, and the mean would have said something else. */
export function meanWords(judgement: Assessed): string | undefined {
  const { mean, status, characteristic } = judgement;
  if (!mean || mean.verdict === status || status === 'missing') return undefined;
  return `The worst place decides. The mean, ${operandWords(characteristic, mean.operand)}, would say ${STATUS_WORDS[mean.verdict].toLowerCase()}.`;
}
