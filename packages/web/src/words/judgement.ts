import type { Assessed, LargestDoubt, NextMove, Status } from '@fettle/book';
import { fullName, placeWords } from './place.ts';
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

/** What to do next, in a sentence. */
export function moveWords(judgement: Assessed, next: NextMove): string {
  const { characteristic } = judgement;
  switch (next.move) {
    case 'measure': {
      const names = [...new Set(next.what.map((one) => one.characteristic.name))];
      const [only] = next.what;
      if (next.what.length === 1 && only) return `Read ${fullName(only.characteristic, only.place)}.`;
      return names.length === 1
        ? `Read ${names[0]} at ${next.what.length} more places.`
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
      return `Nothing owned is fine enough: it has to be known to ±${uncertaintyWords(characteristic, 2 * next.needed)}.${mostlyWords(next.mostly)} Borrow, have it measured, or decide without.`;
    case 'on-the-limit':
      return 'It reads on the limit itself: no instrument settles that. Measure again, or treat it as out.';
    case 'does-not-matter':
      return `It does not matter: ${fullName(next.because.characteristic, next.because.place)} is out on the same part, which decides for both.`;
    case 'settle-disagreement':
      return `The witnesses disagree. Clean up, read ${characteristic.name} again both ways, and strike the wrong one.`;
  }
}

const mostlyWords = (mostly: LargestDoubt | undefined): string =>
  mostly
    ? ` Most of the doubt comes from ${mostly.name} (${mostly.of.map(({ name }) => name).join(', ')}): read that finer first.`
    : '';

/** A contrast worth saying: the worst place decides, and the mean would have said something else. */
export function meanWords(judgement: Assessed): string | undefined {
  const { mean, status, characteristic } = judgement;
  if (!mean || mean.verdict === status || status === 'missing') return undefined;
  return `The worst place decides. The mean, ${operandWords(characteristic, mean.operand)}, would say ${STATUS_WORDS[mean.verdict].toLowerCase()}.`;
}
