import { conformity } from '@fettle/core';
import type { Assessed } from '../assess/assessment.ts';
import { takesTheSame } from '../assess/finer-input.ts';
import { standardUncertaintyOf } from '../assess/instrument.ts';
import { limitsOf } from '../assess/limits.ts';
import type { Book, Written } from '../fold/book.ts';

/** Chance that a reading decides of which nothing is known before and whose limits give no scale; assumed. */
const UNKNOWN = 0.9;
/** Share of the first readings that what is named as fine enough should decide; a choice. */
const WORTHWHILE = 0.5;

type Instrument = Written<'instrument-declared'>;

/** What the first reading of something unread is taken with, and how likely it decides. */
export interface FirstReading {
  readonly chance: number;
  /** Where another than the usual type has to be taken to decide anything. */
  readonly instead?: Instrument;
}

/** Limits so close together that no reading with what is owned could prove anything in. */
export interface TooCoarse {
  /** Of the one it would be read with. */
  readonly instrument: Instrument;
  /** U with which half of all first readings would decide [SI], half-width at about 95 %. */
  readonly needed: number;
}

/**
 * The chance that a first reading decides. The value is taken to lie anywhere between the limits and half their distance
 * beyond, since nothing better is known; undecided is what lies within 1.645 u of a limit: 1 − 2 · 3.29 u / (2 w).
 * One limit alone gives no scale, and the chance is assumed. Limits so close that not even a reading in the middle of
 * them is a proof take another instrument, if one is owned that is fine enough.
 *
 * @source jcgm-106 8.3 for limits too close for the uncertainty; the even spread of values is a guess
 */
export function firstReading(book: Book, { characteristic }: Assessed): FirstReading | TooCoarse {
  const { kind } = characteristic;
  if (kind === 'seen' || characteristic.relation !== undefined) return { chance: UNKNOWN };
  const both = (['wear', 'new'] as const).flatMap((set) => limitsOf(characteristic, set, undefined) ?? []);
  const edges = both.flatMap(({ lower, upper }) => [lower, upper].filter((one) => one !== undefined));
  const [least, most] = [Math.min(...edges), Math.max(...edges)];
  const owned = [...book.instruments.values()];
  const usual = owned.find(({ body }) => body.type === characteristic.with);
  if (!usual || !(most > least)) return { chance: UNKNOWN };
  const chanceWith = (instrument: Instrument): number | undefined => {
    const u = standardUncertaintyOf(instrument, kind, most);
    if (u === undefined) return undefined;
    const middle = { value: (least + most) / 2, u };
    if (conformity(middle, { lower: least, upper: most }).verdict !== 'in') return 0;
    return 1 - (3.29 * u) / (most - least);
  };
  const chance = chanceWith(usual);
  if (chance === undefined) return { chance: UNKNOWN };
  if (chance > 0) return { chance };
  const finer = owned
    .filter(({ body }) => takesTheSame(usual.body.type, body.type))
    .map((instrument) => ({ instrument, chance: chanceWith(instrument) ?? 0 }))
    .sort((a, b) => b.chance - a.chance)[0];
  if (finer && finer.chance > 0) return { chance: finer.chance, instead: finer.instrument };
  return { instrument: usual, needed: (2 * (1 - WORTHWHILE) * (most - least)) / 3.29 };
}
