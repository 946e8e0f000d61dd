import { inUnit } from '@fettle/core';
import type { Limits } from '../assess/limits.ts';
import { valued } from '../assess/operand.ts';
import type { Book } from '../fold/book.ts';
import { placeText } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import type { JobStack } from '../stack/job-stack.ts';
import type { Leaf } from '../stack/leaves.ts';
import type { Block } from './block.ts';
import { entriesWords, entryNumbers } from './deciding.ts';
import { chance } from './money.ts';
import {
  bare as bareWords,
  limitWords as limitWordsOf,
  operandWords,
  shown as shownWords,
} from './quantity.ts';
import { relationWords } from './relation.ts';

// What sizes add up to: the same words on the page, in the terminal and on paper.

const MOST_ENTRIES = 4;
const FROM = { drawing: 'limits for new', readings: 'as measured', leaves: 'between leaves' } as const;
const SHAPES = {
  rectangular: 'evenly between its limits',
  triangular: 'mostly near the middle of its limits',
  normal: 'by a normal law whose limits are three standard deviations away (common practice, no source)',
} as const;

const leafName = ({ characteristic, place }: Leaf): string =>
  `${characteristic.name} ${placeText(place)}`.trim();

/** `2.6915 to 2.6920 in`, or the figure with its doubt. */
const leafSize = ({ characteristic, from, term }: Leaf): string =>
  from === 'drawing' ? limitWords(characteristic, term) : operandWords(characteristic, valued(term.q));

/** Without a unit, as many figures after the point as the sheet prints. */
const plain = ({ decimals }: Characteristic, si: number): string => si.toFixed(decimals ?? 3);
const hasUnit = (characteristic: Characteristic): boolean =>
  characteristic.kind !== 'seen' && characteristic.unit !== undefined;
const bare = (characteristic: Characteristic, si: number): string =>
  hasUnit(characteristic) ? bareWords(characteristic, si) : plain(characteristic, si);
const shown = (characteristic: Characteristic, si: number): string =>
  hasUnit(characteristic) ? shownWords(characteristic, si) : plain(characteristic, si);

function limitWords(characteristic: Characteristic, { lower, upper }: Limits): string {
  if (hasUnit(characteristic) || lower === undefined || upper === undefined)
    return limitWordsOf(characteristic, {
      ...(lower !== undefined && { lower }),
      ...(upper !== undefined && { upper }),
    });
  return `${plain(characteristic, lower)} to ${plain(characteristic, upper)}`;
}

/** What a term moves the result by, either side, in the result's unit. */
const reachWords = (characteristic: Characteristic, reach: number): string =>
  `±${fine(characteristic, reach)}`;

/** One figure more than the sheet prints: a tolerance is smaller than what it belongs to. */
function fine(characteristic: Characteristic, si: number): string {
  const { unit, kind } = characteristic;
  if (kind === 'seen' || unit === undefined) return String(Number(si.toPrecision(3)));
  return `${Number(inUnit(si, unit).toPrecision(3))} ${unit}`;
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** A share of trials: none seen is not never. */
const shareOut = (share: number, trials: number): string =>
  share === 0 ? `none of ${trials.toLocaleString('en').replaceAll(',', ' ')} trials` : chance(share);

/** By the drawing every place is alike, so none is named. */
export function stackTitle({ characteristic, place, by }: JobStack): string {
  const at = by === 'measured' ? ` ${placeText(place)}`.trimEnd() : '';
  return `${characteristic.name}${at}, ${by === 'drawing' ? 'by the limits for new parts' : 'as measured'}`;
}

export function stackBlock(book: Book, found: JobStack): Block {
  const named = (id: string): string => book.characteristics.get(id)?.name ?? id;
  const numbers = entryNumbers(book);
  const { characteristic, stack, limits, set, outside, leaves, shape, trials, seed, by } = found;
  const { worst, rootSumSquare, spread, value } = stack;
  const rows = leaves
    .map((leaf, i) => ({ leaf, effect: stack.effects[i]! }))
    .sort((a, b) => b.effect.share - a.effect.share)
    .map(({ leaf, effect }) => [
      leafName(leaf),
      percent(effect.share),
      reachWords(characteristic, effect.reach),
      leafSize(leaf),
      leaf.entries.length > 0
        ? `${FROM[leaf.from]}, ${entriesWords(numbers, leaf.entries, MOST_ENTRIES)}`
        : FROM[leaf.from],
    ]);
  const between = (low: number, high: number): string =>
    `${bare(characteristic, low)} to ${shown(characteristic, high)}`;
  const mixed = by === 'measured' && leaves.some(({ from }) => from === 'drawing');
  return {
    title: stackTitle(found),
    lines: [
      `Middle ${shown(characteristic, value)}. Worst case ${between(worst.least, worst.greatest)}; root-sum-square ${between(value - rootSumSquare, value + rootSumSquare)}; drawn, 95 % within ${between(spread.quantile(0.025), spread.quantile(0.975))}.`,
      ...(limits && outside !== undefined
        ? [
            `Limits for ${set === 'wear' ? 'wear' : 'new parts'} ${limitWords(characteristic, limits)}: outside in ${shareOut(outside, trials)}${worstInside(found) ? '; the worst case is inside' : '; the worst case is outside'}.`,
          ]
        : [`${characteristic.name} has no limits on the sheet.`]),
      ...(leaves.length > 1 ? [tightenWords(found)] : []),
    ],
    table: { head: ['Term', 'Share', 'Moves it by', 'Size', 'From'], rows },
    notes: [
      `${relationWords(characteristic.relation!, named)}.`,
      ...(leaves.some(({ from }) => from === 'drawing')
        ? [
            `A size known by its limits is drawn ${SHAPES[shape]}; each feature once, so taper and out-of-round are not in it.`,
          ]
        : []),
      ...(by === 'measured'
        ? [
            'What was measured is drawn with the errors its readings share; its worst case is twice its standard uncertainty either side.',
          ]
        : []),
      ...(mixed ? ['Where nothing was measured the limits for new parts stand in.'] : []),
      `${trials.toLocaleString('en').replaceAll(',', ' ')} trials, seed ${seed}${spread.lost > 0 ? `; ${spread.lost} without a value left out` : ''}. Share: of the variance, the parts summing to 100 %. JCGM 101:2008 clause 7; JCGM 100:2008 5.1.2.`,
    ],
  };
}

const worstInside = ({ limits, stack: { worst } }: JobStack): boolean => {
  const slack = 1e-9 * Math.max(Math.abs(worst.least), Math.abs(worst.greatest));
  return (
    worst.least >= (limits?.lower ?? Number.NEGATIVE_INFINITY) - slack &&
    worst.greatest <= (limits?.upper ?? Number.POSITIVE_INFINITY) + slack
  );
};

function tightenWords({ characteristic, tighten, stack, outside, trials }: JobStack): string {
  const before = outside === undefined ? '' : shareOut(outside, trials);
  const after = tighten.outside === undefined ? '' : shareOut(tighten.outside, trials);
  const gains = [
    `root-sum-square from ±${fine(characteristic, stack.rootSumSquare)} to ±${fine(characteristic, tighten.rootSumSquare)}`,
    ...(before === after ? [] : [`outside from ${before} to ${after}`]),
  ];
  return `To ${tighten.leaf.from === 'drawing' ? 'tighten' : 'measure finer'} first: ${leafName(tighten.leaf)}. Half its ${tighten.leaf.from === 'drawing' ? 'tolerance' : 'doubt'} takes ${gains.join(', ')}.`;
}

/** One line for a list of stacks. */
export function stackLine(found: JobStack): string {
  const { characteristic, stack, limits, outside, trials } = found;
  const within = `${bare(characteristic, stack.worst.least)} to ${shown(characteristic, stack.worst.greatest)}`;
  const out = limits && outside !== undefined ? `, outside in ${shareOut(outside, trials)}` : '';
  return `worst case ${within}, ±${fine(characteristic, stack.rootSumSquare)} by root-sum-square${out}`;
}

/** Where nothing on the sheet stacks up. */
export const NO_STACKS =
  'Nothing stacks up yet: that takes a characteristic that follows from at least two others, each with both limits for new parts or readings.';
