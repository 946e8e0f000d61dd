import type { MatchingTried } from '../matching/all-matchings.ts';
import { type JobMatching, type Placing, sameOrder, type Tried } from '../matching/job-matching.ts';
import { placeText } from '../sheet/places.ts';
import type { Block } from './block.ts';
import { bare, halfBand, shown, uncertaintyWords } from './quantity.ts';

// The same sentences at the bench, in the terminal and on paper.

const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** What is aimed at and where that comes from. */
export function targetWords({ characteristic, target, targetFrom }: JobMatching): string {
  const from = {
    sheet: 'the sheet’s target',
    middle: 'the middle of the limits; the sheet names no target',
    mean: 'the mean of what is there; the sheet gives neither target nor limits on both sides',
  }[targetFrom];
  return `Aimed at ${shown(characteristic, target)}: ${from}.`;
}

/** `2 out, 1 cannot tell` or `all in`. */
export function verdictWords({ out, cannotTell, partOf }: Placing): string {
  if (out === 0 && cannotTell === 0) return `all ${partOf.length} in`;
  return [
    ...(out > 0 ? [`${out} out`] : []),
    ...(cannotTell > 0 ? [`${cannotTell} cannot tell`] : []),
    ...(partOf.length > out + cannotTell ? [`${partOf.length - out - cannotTell} in`] : []),
  ].join(', ');
}

/** How far a placing is from its target. */
export const deviationWords = (
  { characteristic, doubt }: JobMatching,
  { deviation, worst }: Placing,
): string =>
  // What is left of a sum in which everything cancels is no distance.
  worst < doubt / 1000
    ? 'on target'
    : `off target by ${uncertaintyWords(characteristic, deviation)} (root mean square), ${uncertaintyWords(characteristic, worst)} at worst`;

/** What the choice says and how far it may be trusted. */
export function matchingNotes(found: JobMatching): string[] {
  const { best, boxed, inside, doubt, characteristic, parts, seats } = found;
  const gain = boxed.deviation - best.deviation;
  const notes: string[] = [];
  if (sameOrder(best, boxed))
    notes.push('The order in which they lay in the box is already the best there is.');
  else if (boxed.out > best.out)
    notes.push(
      `As boxed, ${counted(boxed.out, 'pair is', 'pairs are')} out; this order ${best.out === 0 ? 'has none out' : `leaves ${best.out} out`}.`,
    );
  else if (gain < doubt / 1000) notes.push('It gains nothing on the boxed order: either order will do.');
  else if (gain < doubt)
    notes.push(
      `It gains ${uncertaintyWords(characteristic, gain)} on the boxed order, less than the readings can tell (${uncertaintyWords(characteristic, doubt)}, one standard uncertainty): either order will do.`,
    );
  if (!inside)
    notes.push(
      'No order of these parts keeps every pair inside: this one leaves as few out as can be. Another part, or another size, is wanted.',
    );
  if (parts.length > seats.length)
    notes.push(`${counted(parts.length - seats.length, 'part is', 'parts are')} left over.`);
  notes.push(
    found.objective === 'sum'
      ? 'Exact: no other order has a smaller sum of squared deviations inside the limits.'
      : 'Exact: no other order has a better worst pair inside the limits.',
  );
  return notes;
}

/** One cell: the number alone, as the sheet prints it. */
export const triedWords = ({ characteristic, tried }: JobMatching, seat: number, part: number): string =>
  bare(characteristic, tried[seat]![part]!.q.value);

/** Half its band at about 95 %, as the sheet prints it; never a doubt rounded to nothing. */
export function doubtWords({ characteristic }: JobMatching, { q }: Tried): string {
  const doubt = bare(characteristic, halfBand(q));
  return Number(doubt) === 0 ? uncertaintyWords(characteristic, halfBand(q)) : doubt;
}

const STATUS = {
  in: 'in',
  out: 'OUT',
  'cannot-tell': 'cannot tell',
  missing: 'not read',
  'no-limits': 'no limits',
} as const;

/** `Skirt clearance: Piston and rings`. */
export const matchedName = ({
  characteristic,
  name,
}: Pick<MatchingTried, 'characteristic' | 'name'>): string => `${characteristic.name}: ${name}`;

/** The chosen order beside that of the box, place by place: how it is printed. */
export function matchingBlock(title: string, found: JobMatching): Block {
  const { best, boxed, fitted, seats, parts, characteristic } = found;
  const pair = ({ partOf }: Placing, i: number): string[] => {
    const tried = found.tried[i]![partOf[i]!]!;
    const value = `${triedWords(found, i, partOf[i]!)} ±${doubtWords(found, tried)}`;
    return [parts[partOf[i]!]!.name, value, STATUS[tried.status]];
  };
  const unit = characteristic.unit ?? '';
  return {
    title,
    lines: [
      `${fitted && sameOrder(best, fitted) ? 'Fitted so' : 'The best order'}: ${verdictWords(best)}; ${deviationWords(found, best)}. As boxed: ${verdictWords(boxed)}; ${deviationWords(found, boxed)}.`,
      ...(fitted && !sameOrder(best, fitted) ? [`As fitted now: ${verdictWords(fitted)}.`] : []),
    ],
    table: {
      head: ['Place', 'Chosen', unit, 'Verdict', 'As boxed', unit, 'Verdict'],
      rows: seats.map((seat, i) => [placeText(seat), ...pair(best, i), ...pair(boxed, i)]),
    },
    notes: [targetWords(found), ...matchingNotes(found)],
  };
}

export const NOTHING_MATCHED =
  'Nothing can be matched yet: what can change places is not measured, one for each place at least, with what it goes into.';

/** What else could be matched, by name alone. */
export const wantingWords = (wanting: readonly Pick<MatchingTried, 'characteristic' | 'name'>[]): string =>
  wanting.length === 0
    ? ''
    : `Could be matched too, once it is measured: ${wanting.map(matchedName).join('; ')}.`;
