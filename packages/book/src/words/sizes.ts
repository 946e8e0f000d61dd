import { inUnit } from '@fettle/core';
import { expands } from '../assess/expansion.ts';
import { valued } from '../assess/operand.ts';
import type { Book } from '../fold/book.ts';
import { placeText } from '../sheet/places.ts';
import type { ChosenThickness } from '../sizes/chosen-thickness.ts';
import type { CommonSize, SizeChance } from '../sizes/common-size.ts';
import type { DrawingSize } from '../sizes/drawing-size.ts';
import type { FamilySizes, JobSizes } from '../sizes/job-sizes.ts';
import type { Feature, SizeFamily } from '../sizes/size-family.ts';
import type { SkimBudget, SkimEnd } from '../sizes/skim-budget.ts';
import type { SingleWay, SizeOffer } from '../sizes/ways-to-size.ts';
import type { FinishedSize } from '../slip/finished-size.ts';
import type { Block } from './block.ts';
import { entriesWords, entryNumbers, verdictLine } from './deciding.ts';
import { chance, daysWords, money } from './money.ts';
import { limitWords, operandWords, shown } from './quantity.ts';
import { provenWords } from './slip.ts';

// To which sizes parts go: the same words on the page, in the terminal and on paper.

const MOST_FORCES = 6;
const MOST_ENTRIES = 4;

const name = ({ characteristic }: SizeFamily, { place }: Feature): string =>
  `${characteristic.name} ${placeText(place)}`.trim();

const priced = ({ offer, days, currency }: SizeOffer): string =>
  `${offer.name}, ${money(offer.price, currency)}, ${days === undefined ? 'time not said' : daysWords(days)}`;

const sizeWord = ({ cut }: SizeFamily): string => (cut === 'bore' ? 'oversize' : 'undersize');
const cutWord = ({ cut }: SizeFamily): string => (cut === 'bore' ? 'bored' : 'ground');

/** The size for all, or why there is none. */
function chosenLines(common: CommonSize): string[] {
  const { family, chosen, passedOver, forces, confidence, unread, now } = common;
  const all = `all ${family.features.length}`;
  const already = now ? [`Made to ${now.name} already.`] : [];
  if (unread.length === family.features.length)
    return [...already, 'Not measured, so no size can be chosen.'];
  if (forces.length === 0)
    return [
      ...already,
      unread.length > 0
        ? `Nothing measured so far forces ${now ? 'another' : 'a'} size; not all read: ${unread.map((one) => name(family, one)).join(', ')}.`
        : `Nothing forces ${now ? 'another' : 'a'} size.`,
    ];
  const wanted = `${chance(confidence)} wanted`;
  const lines = chosen
    ? [
        `${chosen.size.name} for ${all}: they clean up together with a chance of ${chance(chosen.chance)} (${wanted}).`,
        ...chosen.offers.map((one) => `${priced(one)}.`),
        ...(chosen.offers.length === 0 ? [`Nothing on record offers ${chosen.size.name}.`] : []),
      ]
    : [`No size that can be had cleans up ${all} with ${wanted}.`];
  const passed = passedOver
    ? [`${passedOver.size.name} would do (${chance(passedOver.chance)}), but it is no longer to be had.`]
    : [];
  const more =
    unread.length > 0
      ? [`Not all read, and left out of the chance: ${unread.map((one) => name(family, one)).join(', ')}.`]
      : [];
  return [...already, ...lines, ...passed, ...more];
}

function setByLine({ family, setBy, cutting }: CommonSize): string[] {
  if (!setBy) return [];
  const { characteristic, cut } = family;
  const at20 = expands(characteristic) ? ' at 20 °C' : '';
  const finish = cut === 'bore' ? 'to hone' : 'to polish';
  return [
    `${name(family, setBy.feature)} sets it: ${operandWords(characteristic, valued(setBy.worst))}${at20}, at ${placeText(setBy.worstAt)}. With as much of its wear on one side as is reckoned with, ${inches(cutting.eccentricity)} off the axis and ${inches(cutting.stock)} ${finish}, it is ${cutWord(family)} clean at ${shown(characteristic, setBy.atWorst)}.`,
  ];
}

/** A small length with two figures that matter. */
const inches = (si: number): string => `${Number(inUnit(si, 'in').toPrecision(2))} in`;

const optionRow = ({ characteristic }: SizeFamily, option: SizeChance): string[] => [
  option.size.name,
  chance(option.chance),
  option.size.obtainable ? 'yes' : 'no longer',
  limitWords(characteristic, option),
  option.offers.map(priced).join('; '),
];

function forceLines({ forces }: CommonSize, numbers: ReadonlyMap<string, number>): string[] {
  if (forces.length === 0) return [];
  const more = forces.length - MOST_FORCES;
  return [
    'What forces it:',
    ...forces
      .slice(0, MOST_FORCES)
      .map((one) => `· ${verdictLine(one)} (${entriesWords(numbers, one.entries, MOST_ENTRIES)}).`),
    ...(more > 0 ? [`· and ${more} more.`] : []),
  ];
}

/** Out the other way: no larger cut is asked for. */
const shortLines = ({ short }: CommonSize): string[] =>
  short.map((one) => `${verdictLine(one)}: metal is left, so it asks for no other size.`);

/** Mending one against cutting all. */
function singleLines(common: CommonSize, way: SingleWay): string[] {
  const { family, chosen } = common;
  const mends = way.mends.map((one) => name(family, one)).join(', ');
  const whole = chosen?.offers[0];
  const { allPrice: all, currency } = way;
  const against = whole ? `, against ${money(whole.offer.price, currency)} for all` : '';

  const left =
    way.leaves.length === 0
      ? 'By the limits for wear the others may then be used again.'
      : `It leaves ${way.leaves
          .slice(0, MOST_FORCES)
          .map((one) => verdictLine(one))
          .join('; ')}.`;
  const uneven = new Map(way.uneven.map((one) => [one.clearance.id, one]));
  return [
    `Against it: ${priced(way)}, mends ${mends} alone${against}. Doing so to every one: ${money(all, currency)}.`,
    left,
    ...[...uneven.values()].map((one) => {
      const features = way.uneven
        .filter(({ clearance }) => clearance.id === one.clearance.id)
        .map(({ feature }) => placeText(feature.place));
      return `But no mating part keeps ${one.clearance.name.toLowerCase()} everywhere in ${family.characteristic.name.toLowerCase()} ${features.join(', ')}: ${placeText(one.feature.place)} alone differs by ${shown(family.characteristic, one.range)}, the limits leave ${shown(family.characteristic, one.room)}.`;
    }),
  ];
}

function finishedLines(finished: readonly FinishedSize[], numbers: ReadonlyMap<string, number>): string[] {
  return finished.map((one) => {
    const { characteristic, at, limits, suits, clearance, entries } = one;
    const parts = suits
      .map(({ part, of, q }) => `${part.name} (${operandWords(of, valued(q))})`)
      .join(' and ');
    const aim = limits.target === undefined ? '' : `, aim at ${shown(characteristic, limits.target)}`;
    return `${`${characteristic.name} ${placeText(at)}`.trim()} to suit ${parts}: ${limitWords(characteristic, limits)}${aim}, for ${clearance.name.toLowerCase()}${provenWords(one)} (${entriesWords(numbers, entries, MOST_ENTRIES)}).`;
  });
}

function drawingLines(family: SizeFamily, drawing: readonly DrawingSize[]): string[] {
  const { characteristic } = family;
  return drawing.map(({ clearance, others, lower, upper, sheet }) => {
    const from = others
      .map((one) => `${one.characteristic.name.toLowerCase()} ${limitWords(one.characteristic, one)}`)
      .join(' and ');
    const says = `the sheet's own limits are ${limitWords(characteristic, sheet)}`;
    return lower > upper
      ? `By ${from} no finished size keeps ${clearance.name.toLowerCase()} inside whatever they turn out to be; measure them first (${says}).`
      : `By ${from}, ${clearance.name.toLowerCase()} stays inside at a finished ${limitWords(characteristic, { lower, upper })} (${says}).`;
  });
}

function cuttingNotes({ family, cutting }: CommonSize): string[] {
  const [, most] = cutting.oneSided;
  const assumed = (key: 'oneSided' | 'eccentricity' | 'stock'): string =>
    cutting.said.includes(key) ? 'as said' : 'assumed: common practice, no source';
  const sided =
    most === 0.5 ? 'Worn alike all round' : `From ½ to ${most === 1 ? 'all' : most} of the wear on one side`;
  return [
    `${sided} (${cutting.said.includes('oneSided') ? 'as said' : 'assumed, evenly likely'}); the cut up to ${inches(cutting.eccentricity)} off the axis as made (${assumed('eccentricity')}); ${inches(cutting.stock)} on the diameter left for ${family.cut === 'bore' ? 'honing' : 'polishing'} (${assumed('stock')}). As made is taken at the end of the limits for new parts that asks for the most.`,
    family.cut === 'bore'
      ? 'The new circle must hold the worn one: M + 2 s (D − M) + 2 e + h, from M as made to D as worn (derived).'
      : 'The new circle must lie within the worn one: M − 2 s (M − d) − 2 e − h, from M as made to d as worn (derived).',
    'The chance is the share of 20 000 trials, readings drawn with the errors they share.',
  ];
}

function familyBlock(
  { common, finished, drawing }: FamilySizes,
  numbers: ReadonlyMap<string, number>,
): Block {
  const { family, options, forces } = common;
  const asked = forces.length > 0;
  const judged = asked && options.length > 0;
  return {
    title: `${family.characteristic.name}: common ${sizeWord(family)}`,
    lines: [
      ...chosenLines(common),
      ...(asked ? setByLine(common) : []),
      ...forceLines(common, numbers),
      ...shortLines(common),
      ...(asked ? common.singles.flatMap((way) => singleLines(common, way)) : []),
      ...finishedLines(finished, numbers),
      ...drawingLines(family, drawing),
    ],
    ...(judged && {
      table: {
        head: ['Size', 'Cleans up', 'To be had', 'Finished', 'By'],
        rows: options.map((option) => optionRow(family, option)),
      },
    }),
    notes: asked ? cuttingNotes(common) : [],
  };
}

const STATUS = { in: 'in', out: 'out', 'cannot-tell': 'cannot tell' } as const;

function thicknessBlock({ gap, place, filler, limits, target, tried, best }: ChosenThickness): Block {
  const where = `${gap.name} ${placeText(place)}`.trim();
  return {
    title: `${where}: ${filler.name.toLowerCase()}`,
    lines: [
      best
        ? `${best.name}: ${operandWords(gap, valued(best.gap))} against ${limitWords(gap, limits)}, ${STATUS[best.status]} (${chance(best.probabilityIn)}).`
        : `None that can be had brings it to ${limitWords(gap, limits)}.`,
    ],
    table: {
      head: ['Thickness', 'Verdict', 'Leaves', 'To be had'],
      rows: tried.map((one) => [
        one.name,
        STATUS[one.status],
        operandWords(gap, valued(one.gap)),
        one.obtainable ? 'yes' : 'no longer',
      ]),
    },
    notes: [
      `Aimed at ${shown(gap, target)}${limits.target === undefined ? ', the middle of the limits' : ''}.`,
      'Two shims, each at the limit for one side, that go in together prove the total too large: nothing goes into less room than it takes (trade fact, common practice, no source).',
    ],
  };
}

const END: Readonly<Record<SkimEnd['by'], string>> = {
  budget: 'what may come off in its life',
  chamber: 'the least chamber',
  ratio: 'the greatest ratio',
};

function skimBlock(skim: SkimBudget): Block {
  const { ratio, chamber, now, after, ends, wanted, depth, taken, mouth, mouthSaid } = skim;
  const first = ends[0];
  const cubic = (si: number): string => shown(chamber, si);
  const thou = 25.4e-6;
  const measured = now.measured ? '' : ' (not measured: the middle of its limits)';
  const bored =
    skim.at.length > 0
      ? `, with ${skim.at.map(({ family: of, size }) => `${of.characteristic.name.toLowerCase()} ${size}`).join(' and ')}`
      : '';
  return {
    title: 'Head: what a skim does, and what may still come off',
    lines: [
      ...(wanted
        ? [
            `${verdictLine(wanted.flatness)}: at least ${inches3(wanted.depth)} comes off, the hollow with its doubt.`,
          ]
        : []),
      `${depth > 0 ? `${inches3(depth)} off` : 'Nothing off'}: chamber ${cubic(now.chamber)}${measured} to ${cubic(after.chamber)}, compression ratio ${now.ratio.toFixed(2)} to ${after.ratio.toFixed(2)}${bored}.`,
      ...(first
        ? [
            first.depth < depth
              ? `That is more than ${END[first.by]} leaves: ${inches3(Math.max(0, first.depth))}.`
              : `Then ${inches3(first.depth - depth)} is left; ${END[first.by]} decides.`,
          ]
        : []),
      ...(taken === undefined && ends.some(({ by }) => by === 'budget')
        ? [
            'What was skimmed off before is not entered: nothing is counted for it, so less may be left. Enter it, or measure the head.',
          ]
        : []),
    ],
    ...(ends.length > 0 && {
      table: {
        head: ['Ends at', 'Leaves now', 'Leaves then'],
        rows: ends.map((end) => [
          `${end.of.name} (${END[end.by]})`,
          signed(end.depth),
          signed(end.depth - depth),
        ]),
      },
    }),
    notes: [
      `${inUnit(mouth * thou, 'cm3').toFixed(2)} cm³ for each .001 in, ${mouthSaid ? 'by the area said' : `by a mouth as wide as the bore, ${(mouth * 1e4).toFixed(1)} cm² (assumed: measure it, or say volume over depth)`}; V = A d, ${ratio.name.toLowerCase()} = (V_s + V_c)/V_c.`,
      'A skim brings valves nearer to the pistons and shortens what the pushrods need: check both. A thicker gasket gives back ratio, not height.',
    ],
  };
}

const inches3 = (si: number): string => `${inUnit(si, 'in').toFixed(4)} in`;
const signed = (si: number): string => (si < 0 ? `over by ${inches3(-si)}` : inches3(si));

/** Everything about sizes, a block for each thing that has one. */
export function sizeBlocks(book: Book, { families, thicknesses, skim }: JobSizes): Block[] {
  const numbers = entryNumbers(book);
  return [
    ...families.map((one) => familyBlock(one, numbers)),
    ...thicknesses.map(thicknessBlock),
    ...(skim ? [skimBlock(skim)] : []),
  ];
}

/** Where the sheet has no sizes at all. */
export const NO_SIZES =
  'The sheet has no sizes to which anything is cut. Enter those that can be bought with the bore or the journal they belong to.';
