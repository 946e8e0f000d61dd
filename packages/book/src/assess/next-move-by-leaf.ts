import {
  type Bracket,
  leafStacks,
  normalBetween,
  parseQuantity,
  printQuantity,
  standardUncertainty,
  triesLeft,
} from '@fettle/core';
import type { Characteristic } from '../sheet/sheet.ts';
import { stackWords } from '../words/leaves.ts';
import { readingsAt } from './finer-input.ts';
import type { Member } from './judgement.ts';
import type { Limits } from './limits.ts';
import { evenly, type LeafToTry, leafOfFewestTries } from './next-move-leaf.ts';
import type { Operand } from './operand.ts';
import type { Reckoning } from './reckoning.ts';

/** A leaf to put into the gap, or several laid together. */
export interface TryLeaf {
  readonly move: 'try-leaf';
  readonly characteristic: Characteristic;
  /** As owned; of a stack the leaves, thin to thick: `1.5 + 4 thou`. */
  readonly leaf: string;
  /** Leaves laid together, where no single one would decide. */
  readonly stack?: readonly string[];
  readonly triesLeft: number;
  /** On average, by what is believed of the gap. */
  readonly expectedTries: number;
  /** Chance that the leaves owned lead to a verdict. */
  readonly decides: number;
}

/** Leaves that were tried of one thing, and the gap they leave. */
export interface LeafBracket {
  readonly characteristic: Characteristic;
  readonly bracket: Bracket;
  /** A judged size turned back into what the leaf would have to be. */
  readonly back: (value: number) => number;
}

const metres = (text: string | undefined): number | undefined => {
  const read = text === undefined ? undefined : parseQuantity(text, 'length');
  return read?.ok ? read.value.value : undefined;
};

/** The leaves behind what is judged; undefined where none were tried. */
export function leafBracketOf(reckoning: Reckoning, member: Member): LeafBracket | undefined {
  const tried = readingsAt(reckoning, member.known.entries).filter(({ body }) => body.value === undefined);
  const [reading] = tried;
  if (!reading) return undefined;
  const characteristic = reckoning.characteristic(reading.body.characteristic);
  if (characteristic.kind !== 'length') return undefined;
  // Every leaf tried of this one thing counts, not only those of the first answer.
  const alike = tried.filter(
    ({ body }) =>
      body.characteristic === reading.body.characteristic && body.measurand === reading.body.measurand,
  );
  const sizesOf = (which: 'goes' | 'stops') => alike.flatMap(({ body }) => metres(body[which]) ?? []);
  const [goes, stops] = [sizesOf('goes'), sizesOf('stops')];
  const bracket = {
    goes: goes.length > 0 ? Math.max(...goes) : undefined,
    stops: stops.length > 0 ? Math.min(...stops) : undefined,
  };
  const { cut, operand } = member.known;
  return { characteristic, bracket, back: backToLeaves(cut ?? operand, bracket) };
}

/** The leaf to try next; leaves laid together where no single one owned would lead to a verdict. */
export function byLeaf(reckoning: Reckoning, member: Member, limits: Limits): TryLeaf | undefined {
  const tried = leafBracketOf(reckoning, member);
  if (!tried) return undefined;
  const { characteristic, bracket, back } = tried;
  const leafLimits = {
    ...(limits.lower !== undefined && { lower: back(limits.lower) }),
    ...(limits.upper !== undefined && { upper: back(limits.upper) }),
  };
  const mass = believed(member.known.operand, back);
  const move = (found: LeafToTry, leaf: string, sizes: readonly number[]): TryLeaf => ({
    move: 'try-leaf',
    characteristic,
    leaf,
    triesLeft: triesLeft(bracket, sizes),
    expectedTries: found.expected,
    decides: found.decides,
  });
  const sets = ownedSets(reckoning);
  const leaves = sets.flat();
  const sizes = leaves.map(({ size }) => size);
  const single = leafOfFewestTries(bracket, sizes, leafLimits, mass);
  if (single && single.decides > 0) {
    const owned = leaves.find(({ size }) => size === single.leaf)?.text;
    return move(single, owned ?? printQuantity(single.leaf, 'thou'), sizes);
  }
  const laid = stackToTry(sets, bracket, leafLimits, mass);
  return laid && { ...move(laid.found, stackWords(laid.stack), laid.sizes), stack: laid.stack };
}

/** Leaves laid together where no single one owned would decide. */
interface StackToTry {
  readonly found: LeafToTry;
  readonly stack: readonly string[];
  /** Thicknesses of all the stacks thought of. */
  readonly sizes: readonly number[];
}

/** Two leaves of one set, or three, after which a verdict takes the fewest tries. */
export function stackToTry(
  sets: readonly (readonly OwnedLeaf[])[],
  bracket: Bracket,
  limits: Limits,
  mass: (from: number, to: number) => number = evenly,
): StackToTry | undefined {
  for (const count of [2, 3]) {
    const stacks = sets.flatMap((set) => stacksBetween(set, bracket, limits, count));
    const sizes = stacks.map(({ size }) => size);
    const found = leafOfFewestTries(bracket, sizes, limits, mass);
    const stack = found && stacks.find(({ size }) => size === found.leaf)?.leaves;
    if (found && stack && found.decides > 0) return { found, stack, sizes };
  }
  return undefined;
}

/** Thicknesses closer than this are one and the same [m]. */
const SAME = 1e-8;
/** Stacks thought of on either side of a limit: those farther off tell less. */
const NEAREST = 4;

/** Leaves of one set laid together that fall inside the bracket, the nearest to each limit. */
function stacksBetween(
  set: readonly OwnedLeaf[],
  { goes = 0, stops = Number.POSITIVE_INFINITY }: Bracket,
  limits: Limits,
  count: number,
): { size: number; leaves: string[] }[] {
  const textOf = new Map(set.map(({ text, size }) => [size, text]));
  const owned = [...textOf.keys()];
  const isBetween = (size: number): boolean => size > goes + SAME && size < stops - SAME;
  const found = new Map<number, { size: number; leaves: string[] }>();
  for (const limit of [limits.lower, limits.upper]) {
    if (limit === undefined) continue;
    const near = leafStacks(owned, limit, count, Number.POSITIVE_INFINITY)
      .filter(({ leaves, thickness }) => leaves.length > 1 && isBetween(thickness))
      .slice(0, 2 * NEAREST);
    for (const { leaves, thickness } of near)
      found.set(Math.round(thickness / SAME), {
        size: thickness,
        leaves: leaves.map((leaf) => textOf.get(leaf)!),
      });
  }
  return [...found.values()];
}

/** What is believed of the gap that the leaves are tried in: as another witness reads it, else evenly all there is. */
function believed(operand: Operand, back: (value: number) => number): (from: number, to: number) => number {
  if (operand.kind !== 'value') return evenly;
  const u = standardUncertainty(operand.q);
  const middle = back(operand.q.value);
  const spread = Math.abs(back(operand.q.value + u) - middle);
  return spread > 0 ? (from, to) => normalBetween((from - middle) / spread, (to - middle) / spread) : evenly;
}

/**
 * A limit turned back into what the leaf would have to be: the relation between leaf and judged edge is a straight
 * line, and both ends of it are known.
 */
function backToLeaves(operand: Operand, bracket: Bracket): (limit: number) => number {
  const edges: Partial<Operand & { kind: 'interval' }> = operand.kind === 'interval' ? operand : {};
  const pairs = [
    [bracket.goes, edges.lower?.value],
    [bracket.stops, edges.upper?.value],
  ].filter((pair): pair is [number, number] => pair[0] !== undefined && pair[1] !== undefined);
  const [first, second] = pairs;
  if (!first) return (limit) => limit;
  const slope = second ? (second[1] - first[1]) / (second[0] - first[0]) : 1;
  return (limit) => first[0] + (limit - first[1]) / slope;
}

interface OwnedLeaf {
  readonly text: string;
  readonly size: number;
}

/** The leaves owned, set by set. */
const ownedSets = (reckoning: Reckoning): OwnedLeaf[][] =>
  [...reckoning.book.instruments.values()].flatMap(({ body }) => {
    const set = (body.leaves ?? []).flatMap((text) => {
      const size = metres(text);
      return size === undefined ? [] : [{ text, size }];
    });
    return set.length > 0 ? [set] : [];
  });
