import type { Assessed } from '../assess/assessment.ts';
import type { Deciding } from '../assess/deciding-tool.ts';
import type { LargestDoubt } from '../assess/finer-input.ts';
import type { NextMove } from '../assess/next-move.ts';
import type { Further, Repeating } from '../assess/next-move-further.ts';
import { type Place, placeText } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { STACK_DOUBT } from './leaves.ts';
import { chance, money } from './money.ts';
import { uncertaintyWords } from './quantity.ts';

/** How a place and a doubt are said where the words stand. */
export interface Saying {
  /** `main 2, front`; empty where there is one place only. */
  readonly place: (characteristic: Characteristic, place: Place) => string;
  readonly doubt: (characteristic: Characteristic, si: number) => string;
  /** Room is short: of repeats nothing is said where something better is at hand. */
  readonly short?: boolean;
}

const PLAINLY: Saying = {
  place: ({ places }, place) => placeText(place, places),
  doubt: (characteristic, si) => uncertaintyWords(characteristic, si),
};

/** More places than these are counted, not named. */
const MOST_NAMED = 12;

/** What its witnesses disagree about: itself by name, or by their ids what it is worked out from. */
function disputedNames({ characteristic, disputes }: Assessed): string {
  const behind = disputes.filter((one) => one.characteristic !== characteristic.id);
  if (behind.length === 0) return characteristic.name;
  return behind
    .map((one) => [one.characteristic, placeText(one.place)].filter((part) => part !== '').join('@'))
    .join(', ');
}

/** What to do next, in a sentence. */
export function moveWords(judgement: Assessed, next: NextMove, say: Saying = PLAINLY): string {
  const { characteristic } = judgement;
  switch (next.move) {
    case 'measure':
      return measureWords(next.what, say);
    case 'look':
      return `Look at it${next.wanted === '' ? '' : `; wanted: ${next.wanted}`}.`;
    case 'try-leaf':
      if (next.stack)
        return `No single leaf owned lies where it would decide. Lay ${next.leaf} together and try that; with such stacks ${next.triesLeft === 1 ? 'it takes one try' : `${tries(next.expectedTries)} tries on average`}. ${STACK_DOUBT}`;
      return `Try the leaf ${next.leaf}; at most ${next.triesLeft} ${next.triesLeft === 1 ? 'try' : 'tries'} with the leaves owned${next.triesLeft === 1 ? '' : `, ${tries(next.expectedTries)} on average`}.`;
    case 'use-instrument':
      return next.characteristic.id === characteristic.id
        ? `${next.name} would decide, if it reads the same.`
        : `Read ${next.characteristic.name} with ${next.name}: that would decide, if it reads the same.`;
    case 'finer-than-owned':
      if (next.afterLeaves)
        return `The leaves owned can tell no more. A number is wanted, known to ±${say.doubt(characteristic, 2 * next.needed)} at about 95 %: read it with something finer, borrow, have it measured, or decide without.`;
      return `Nothing owned is fine enough, if it reads the same: it has to be known to ±${say.doubt(characteristic, 2 * next.needed)} at about 95 %.${mostlyWords(next.mostly)} Borrow, have it measured, or decide without.`;
    case 'on-the-limit':
      return 'It reads on the limit itself: no instrument settles that. Measure again, or treat it as out.';
    case 'does-not-matter':
      return `It does not matter: ${named(next.because.characteristic, next.because.place, say)} is out on the same part, which decides for both.`;
    case 'settle-disagreement':
      return `The witnesses disagree. Clean up, read ${disputedNames(judgement)} again both ways, and strike the wrong one.`;
    case 'restore':
      return restoreWords(next);
  }
}

/** Where room is short: what a place is read with again, since nobody can tell. */
export function againWords({ characteristic }: Assessed, next: NextMove): string {
  switch (next.move) {
    case 'try-leaf':
      return `again: try the leaf ${next.leaf}`;
    case 'use-instrument':
      return `again, with: ${next.name}`;
    case 'settle-disagreement':
      return 'again, both ways: the witnesses disagree';
    case 'finer-than-owned':
      return `again, finer (borrow): ${characteristic.name.toLowerCase()} to ±${PLAINLY.doubt(characteristic, 2 * next.needed)}`;
    case 'on-the-limit':
      return 'again: it reads on the limit itself';
    default:
      return 'again: its tool failed its check';
  }
}

const named = (characteristic: Characteristic, place: Place, say: Saying): string => {
  const at = say.place(characteristic, place);
  return at === '' ? characteristic.name : `${characteristic.name}, ${at}`;
};

const tries = (expected: number): string => String(Number(expected.toFixed(1)));

function measureWords(what: (NextMove & { move: 'measure' })['what'], say: Saying): string {
  const names = [...new Set(what.map((one) => one.characteristic.name))];
  const [only] = what;
  if (what.length === 1 && only) return `Read ${named(only.characteristic, only.place, say)}.`;
  if (names.length > 1) return `Read ${names.join(', ')}.`;
  const places = what.map(({ characteristic, place }) => say.place(characteristic, place));
  return places.length > MOST_NAMED
    ? `Read ${names[0]} at ${places.length} more places.`
    : `Read ${names[0]} at ${places.join('; ')}.`;
}

/** Where most of the doubt in a figure worked out from several readings comes from. */
const mostlyWords = (mostly: LargestDoubt | undefined): string =>
  mostly === undefined
    ? ''
    : ` ${Math.round(100 * mostly.share)} % of the doubt comes from ${mostly.name}${mostly.of.length === 0 ? '' : `, with which ${mostly.of.map(({ name }) => name).join(' and ')} was read`}: read that finer first.`;

/** Most offers named; the others are counted. */
const MOST_OFFERS = 2;

function restoreWords({ offers, sizes, currency }: NextMove & { move: 'restore' }): string {
  const others = offers.length - MOST_OFFERS;
  if (offers.length > 0)
    return `Out: it needs ${offers
      .slice(0, MOST_OFFERS)
      .map(
        ({ name, price, needs }) =>
          `${name} (${money(price, currency)}${needs.length > 0 ? `, with ${needs.join(' and ')}` : ''})`,
      )
      .join(
        ', or ',
      )}${others > 0 ? `, or ${others === 1 ? 'another offer' : `one of ${others} other offers`}` : ''}; nothing more to measure.`;
  if (sizes.length > 0)
    return `Out: nothing on record brings it back. The choice is among the sizes that can be had: ${sizes.join(', ')}; nothing more to measure.`;
  return 'Out: nothing on record brings it back. Enter what is offered for it; nothing more to measure.';
}

/** From here on a way at hand is good enough. */
const LIKELY = 0.5;

/** What could decide it and how likely, and what repeating would do; a sentence each. */
export function furtherWords(
  { characteristic }: Assessed,
  { deciding, repeating }: Further,
  say: Saying = PLAINLY,
): string[] {
  const owned = deciding.find((one) => one.owned);
  const borrowed = deciding.find((one) => !one.owned);
  const isBetter = borrowed && (!owned || borrowed.chance.decided > owned.chance.decided);
  return [
    ...(owned ? [decidingWords(characteristic, owned, say)] : []),
    ...(isBetter ? [decidingWords(characteristic, borrowed, say)] : []),
    ...(deciding.length === 0
      ? ['No other instrument known here that takes this measure has a chance worth naming of deciding it.']
      : []),
    ...(repeating && !(say.short && owned && owned.chance.decided >= LIKELY) ? [repeatWords(repeating)] : []),
  ];
}

function decidingWords(judged: Characteristic, one: Deciding, say: Saying): string {
  if (one.first) return firstWords(judged, one, say);
  const what = one.characteristic.id === judged.id ? 'it' : one.characteristic.name;
  const often = one.places.length === 1 ? '' : `, at ${one.places.length} places`;
  const with_ = one.owned ? one.name : `a borrowed ${one.name}`;
  return `Reading ${what} again with ${with_} (±${say.doubt(one.characteristic, one.expanded)}${often}) has a chance of ${chance(one.chance.decided)} of deciding: in ${chance(one.chance.in)}, out ${chance(one.chance.out)}.`;
}

/** How far the reading of a gap that so far only leaves were tried in would go. */
function firstWords(judged: Characteristic, one: Deciding, say: Saying): string {
  const chances = `a chance of ${chance(one.chance.decided)} of deciding: in ${chance(one.chance.in)}, out ${chance(one.chance.out)}`;
  if (one.sizes) {
    const each = one.sizes.map(
      ({ characteristic, place, name, owned }) =>
        `${named(characteristic, place, say)} with ${owned ? name : `a borrowed ${name}`}`,
    );
    return `Reading ${each.join(' and ')} (together ±${say.doubt(judged, one.expanded)}) has ${chances}.`;
  }
  const with_ = one.owned ? one.name : `a borrowed ${one.name}`;
  const moved = one.type === 'dial indicator' && one.characteristic.with !== one.type;
  return `Reading ${one.characteristic.id === judged.id ? 'it' : one.characteristic.name} with ${with_} (±${say.doubt(one.characteristic, one.expanded)})${moved ? ', if the part can be moved through its gap,' : ''} has ${chances}.`;
}

function repeatWords({ name, characteristic, needed, chance: once }: Repeating): string {
  const again = `${characteristic.name} once more with ${name} has a chance of ${chance(once.decided)}`;
  if (needed === undefined)
    return `${again}; no number of repeats would settle it if the mean stays: what its readings have in common does not shrink.`;
  if (needed === 'many') return `${again}; more than 30 repeats would be needed.`;
  return `${again}; ${needed} more ${needed === 1 ? 'time' : 'times'} would decide, if the mean stays.`;
}

/** What a chance of deciding rests on. */
export const CHANCE_GROUNDS =
  'Chance of deciding: y = m + z √(u² + r² − 2 cov), summed over the z at which what is known and y together would be in or out, consistency test included. Instruments to borrow are taken as they usually are. Where only leaves were tried, the gap is taken as evenly likely between the one that goes and the one that does not, each with its own doubt.';
