import { kept } from './svg/finite.ts';

/** One limit. */
export interface RailPost {
  readonly at: number;
  /** The limit as it is printed, in the rail's unit. */
  readonly text: string;
}

/** One set of limits: `new` stands as full posts above the rail, `wear` as broken posts below it. */
export interface RailSet {
  readonly set: 'new' | 'wear';
  readonly name: string;
  readonly lower?: RailPost | undefined;
  readonly upper?: RailPost | undefined;
  readonly target?: RailPost | undefined;
}

/** What a witness says: as wide as its uncertainty. An edge that is missing is an open end. */
export interface RailBlock {
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  /** Where it most likely is. */
  readonly best?: number | undefined;
  readonly name?: string | undefined;
  readonly text: string;
}

/** Where the rail's values lie in the picture. */
export interface Scale {
  readonly start: number;
  readonly end: number;
  readonly x: (value: number) => number;
}

/** A scale that holds every limit and block, with a margin on both sides. */
export function railScale(
  sets: readonly RailSet[],
  blocks: readonly RailBlock[],
  start: number,
  end: number,
): Scale {
  const marks = [
    ...sets.flatMap(({ lower, upper, target }) => [lower?.at, upper?.at, target?.at]),
    ...blocks.flatMap(({ from, to, best }) => [from, to, best]),
  ].filter((mark) => mark !== undefined);
  const [least, most] = marks.length > 0 ? [Math.min(...marks), Math.max(...marks)] : [0, 1];
  // Halved before they are taken from each other: the two ends of the number range would overflow.
  const reach = (most / 2 - least / 2) * 2 || Math.abs(most) || 1;
  const margin = reach * 0.16;
  const [low, high] = [least - margin, most + margin];
  const x = (value: number): number => {
    const part = (value / 2 - low / 2) / (high / 2 - low / 2);
    return start + kept(Number.isFinite(part) ? part : 0.5, 0, 1) * (end - start);
  };
  return { start, end, x };
}
