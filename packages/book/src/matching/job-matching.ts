import {
  failed,
  type Issue,
  type MatchingObjective,
  matching,
  type Outcome,
  ok,
  standardUncertainty,
  type Uncertain,
} from '@fettle/core';
import { type Judgement, judgementsOf, type Status } from '../assess/judgement.ts';
import { limitsOf } from '../assess/limits.ts';
import { Reckoning } from '../assess/reckoning.ts';
import type { Catalogue } from '../assess/relations.ts';
import { onTrial } from '../assess/selection.ts';
import type { Book, Part } from '../fold/book.ts';
import { isAt, type Place, placeText } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { type Movable, movable, movingPatterns, seatPosition } from './movable.ts';

export interface MatchingAsked {
  /** What is to come right in every pair: a clearance, a weight together. */
  readonly characteristic: string;
  /** Position pattern of what moves; the characteristic's own, or its first mate's, when absent. */
  readonly moves?: string;
  /** The parts to be placed; all that were measured when absent. */
  readonly parts?: readonly string[];
  /** `sum`: the squares of all deviations together are least; `worst`: the worst pair is as good as can be. */
  readonly objective?: MatchingObjective;
}

/** One part tried in one seat. */
export interface Tried {
  readonly status: Status;
  readonly q: Uncertain;
  /** From the target, in SI. */
  readonly deviation: number;
}

/** One way of placing the parts: for each seat the part of that number, in the order of `parts`. */
export interface Placing {
  readonly partOf: readonly number[];
  /** Root of the mean square of the deviations, in SI. */
  readonly deviation: number;
  /** The largest deviation, either way. */
  readonly worst: number;
  readonly out: number;
  readonly cannotTell: number;
}

type TargetFrom = 'sheet' | 'middle' | 'mean';

export interface JobMatching {
  readonly characteristic: Characteristic;
  readonly moves: string;
  readonly objective: MatchingObjective;
  readonly seats: readonly Place[];
  readonly parts: readonly Part[];
  readonly target: number;
  /** The sheet's target, the middle of its limits, or, without either, the mean of what is there. */
  readonly targetFrom: TargetFrom;
  /** One row a seat, one column a part. */
  readonly tried: readonly (readonly Tried[])[];
  readonly best: Placing;
  /** Whether the best keeps every pair from being out; else out pairs were let in, as few as can be. */
  readonly inside: boolean;
  /** In the order in which the parts were entered: as they lay in the box. */
  readonly boxed: Placing;
  /** Where some of these parts are fitted: as they stand now. */
  readonly fitted?: Placing;
  /** Largest standard uncertainty of a pair: gains below it are not to be believed. */
  readonly doubt: number;
}

/** Whether two placings put every part in the same seat. */
export const sameOrder = (a: Placing, b: Placing): boolean =>
  a.partOf.every((part, seat) => part === b.partOf[seat]);

const issue = (code: string, got: string, wanted: string, message: string): Issue => ({
  code,
  at: 'matching',
  got,
  wanted,
  message,
});

/**
 * Which part goes where so that a derived characteristic comes nearest to its target everywhere, inside its limits.
 *
 * Every part is tried in every seat with the readings that go with it, doubts and shared sources included; the
 * assignment itself is exact.
 *
 * @returns issues where nothing can move, too little is measured, or there are fewer parts than seats
 * @source  jonker-volgenant
 */
export function jobMatching(book: Book, asked: MatchingAsked, catalogue: Catalogue): Outcome<JobMatching> {
  const characteristic = book.characteristics.get(asked.characteristic);
  const patterns = characteristic ? movingPatterns(characteristic) : [];
  const pattern = asked.moves ?? patterns[0];
  if (!characteristic || pattern === undefined || !patterns.includes(pattern))
    return failed(
      issue(
        'matching/nothing-moves',
        asked.moves ?? asked.characteristic,
        patterns.length > 0 ? patterns.join(' or ') : 'a characteristic whose parts stand at places',
        patterns.length > 0
          ? `In ${asked.characteristic} what moves is ${patterns.join(' or ')}. Name one of them.`
          : `Nothing in ${asked.characteristic} can change places: choose a characteristic of parts that can, such as a clearance of pistons.`,
      ),
    );
  const unknown = (asked.parts ?? []).find((id) => !book.parts.has(id));
  if (unknown !== undefined)
    return failed(
      issue(
        'matching/part-unknown',
        unknown,
        'a part of this job',
        `There is no part "${unknown}". Correct its id.`,
      ),
    );
  const set = movable(book, characteristic, pattern, asked.parts);
  if (set.seats.length < 2 || set.parts.length < set.seats.length)
    return failed(
      issue(
        'matching/too-few',
        `${set.parts.length} parts for ${set.seats.length} seats`,
        'at least two seats, and a measured part for each',
        `${set.parts.length} measured parts for ${set.seats.length} seats of ${pattern}. Measure the others, or name the parts to be matched.`,
      ),
    );
  const judged = set.seats.map((seat) =>
    set.parts.map((part) => trialOf(book, characteristic, set, seat, part, catalogue)),
  );
  const lacking = lackingIn(book, set, judged);
  if (lacking.length > 0) return failed(...lacking);
  return ok(placed(book, characteristic, set, judged as readonly Judgement[][], asked.objective ?? 'sum'));
}

function trialOf(
  book: Book,
  characteristic: Characteristic,
  set: Movable,
  seat: Place,
  part: Part,
  catalogue: Catalogue,
): Judgement | undefined {
  const reckoning = new Reckoning(book, onTrial(book, { [seatPosition(set, seat)]: part.id }), catalogue);
  const here = judgementsOf(reckoning, characteristic).filter(({ place }) =>
    isAt(seat, { ...seat, ...place }),
  );
  // Where a seat has several judged places, its worst speaks for it.
  return here.sort((a, b) => RANK[a.status] - RANK[b.status])[0];
}

const RANK: Readonly<Record<Status, number>> = {
  missing: 0,
  out: 1,
  'cannot-tell': 2,
  in: 3,
  'no-limits': 4,
};

const numbered = (judgement: Judgement | undefined): boolean => judgement?.operand.kind === 'value';

/** What stands in the way of a number for every pair: parts or seats not measured, or readings that do not travel. */
function lackingIn(
  book: Book,
  set: Movable,
  judged: readonly (readonly (Judgement | undefined)[])[],
): Issue[] {
  const without = judged.flatMap((row, i) => row.flatMap((one, j) => (numbered(one) ? [] : [{ i, j, one }])));
  const first = without[0];
  if (!first) return [];
  const missing = [
    ...new Set(without.flatMap(({ one }) => one?.missing ?? []).map((at) => at.characteristic)),
  ];
  const bound = missing.filter((id) => {
    const { position, mates } = book.characteristics.get(id) ?? {};
    return position === set.moves && mates !== undefined;
  });
  const names = (ids: readonly string[]) =>
    ids.map((id) => book.characteristics.get(id)?.name ?? id).join(', ');
  const pair = `${set.parts[first.j]!.name} at ${placeText(set.seats[first.i]!)}`;
  if (bound.length > 0 && without.length < set.seats.length * set.parts.length)
    return [
      issue(
        'matching/holds-where-read',
        names(bound),
        'a size of the part itself, such as its wall',
        `${names(bound)} was read with the part in its place and holds there only, so nothing is known of ${pair}. Measure what belongs to the part alone.`,
      ),
    ];
  return [
    issue(
      'matching/not-measured',
      `no number for ${pair}`,
      'a number for every part in every seat',
      `Nothing is known as a number of ${pair}${missing.length > 0 ? `: ${names(missing)} is not measured` : ''}. Measure both sides; a leaf that goes and one that stops place nothing.`,
    ),
  ];
}

function placed(
  book: Book,
  characteristic: Characteristic,
  set: Movable,
  judged: readonly (readonly Judgement[])[],
  objective: MatchingObjective,
): JobMatching {
  const values = judged.map((row) => row.map(({ operand }) => (operand as { q: Uncertain }).q));
  const { target, targetFrom } = targetOf(characteristic, judged, values);
  const tried = judged.map((row, i) =>
    row.map(({ status }, j): Tried => {
      const q = values[i]![j]!;
      return { status, q, deviation: q.value - target };
    }),
  );
  const placing = (partOf: readonly number[]): Placing => {
    const pairs = partOf.map((part, seat) => tried[seat]![part]!);
    return {
      partOf,
      deviation: Math.sqrt(pairs.reduce((sum, { deviation }) => sum + deviation ** 2, 0) / pairs.length),
      worst: Math.max(...pairs.map(({ deviation }) => Math.abs(deviation))),
      out: pairs.filter(({ status }) => status === 'out').length,
      cannotTell: pairs.filter(({ status }) => status === 'cannot-tell').length,
    };
  };
  const { partOf, inside } = bestPlacing(tried, objective);
  const fitted = set.seats.map((seat) => {
    const now = book.positions.get(seatPosition(set, seat))?.now?.part;
    return set.parts.findIndex(({ id }) => id === now);
  });
  return {
    characteristic,
    moves: set.moves,
    objective,
    seats: set.seats,
    parts: set.parts,
    target,
    targetFrom,
    tried,
    best: placing(partOf),
    inside,
    boxed: placing(set.seats.map((_, i) => i)),
    ...(fitted.every((part) => part >= 0) && { fitted: placing(fitted) }),
    doubt: Math.max(...values.flat().map(standardUncertainty)),
  };
}

/** Limits of the size the parts are made to; a set that only the mean can aim at has no target of its own. */
function targetOf(
  characteristic: Characteristic,
  judged: readonly (readonly Judgement[])[],
  values: readonly (readonly Uncertain[])[],
): { target: number; targetFrom: TargetFrom } {
  const first = judged[0]![0]!;
  const limits =
    first.verdicts[first.governing ?? 'new']?.limits ??
    limitsOf(characteristic, first.governing ?? 'new', undefined);
  if (limits?.target !== undefined) return { target: limits.target, targetFrom: 'sheet' };
  if (limits?.lower !== undefined && limits.upper !== undefined)
    return { target: (limits.lower + limits.upper) / 2, targetFrom: 'middle' };
  const all = values.flat();
  return { target: all.reduce((sum, { value }) => sum + value, 0) / all.length, targetFrom: 'mean' };
}

/** Inside the limits where that can be; else with as few pairs out as there must be, dearly paid for. */
function bestPlacing(
  tried: readonly (readonly Tried[])[],
  objective: MatchingObjective,
): { partOf: readonly number[]; inside: boolean } {
  const costs = tried.map((row) =>
    row.map(({ deviation }) => (objective === 'sum' ? deviation ** 2 : Math.abs(deviation))),
  );
  const forbidden = tried.flatMap((row, i) =>
    row.flatMap(({ status }, j): [number, number][] => (status === 'out' ? [[i, j]] : [])),
  );
  const inside = matching(costs, objective, forbidden);
  if (inside) return { partOf: inside.assignment, inside: true };
  const most = Math.max(...costs.flat());
  const dear = costs.map((row, i) =>
    row.map((cost, j) => (tried[i]![j]!.status === 'out' ? cost + (costs.length + 1) * (most || 1) : cost)),
  );
  return { partOf: matching(dear, 'sum')!.assignment, inside: false };
}
