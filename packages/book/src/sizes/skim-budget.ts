import {
  cubicMetre,
  failed,
  metre,
  type Outcome,
  ok,
  parseQuantity,
  pistonArea,
  type SquareMetre,
  skimForVolume,
  skimmedVolume,
  squareMetre,
  standardUncertainty,
  type Uncertain,
} from '@fettle/core';
import type { Assessed, Assessment } from '../assess/assessment.ts';
import { limitsOf } from '../assess/limits.ts';
import type { Reckoning } from '../assess/reckoning.ts';
import type { Catalogue } from '../assess/relations.ts';
import type { Book } from '../fold/book.ts';
import { type Place, placesOf } from '../sheet/places.ts';
import { characteristicsIn, type Relation } from '../sheet/relation.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { type RelationFunction, relationFunction } from '../stack/relation-function.ts';
import { madeLimits, type SizeFamily } from './size-family.ts';

export interface SkimAsked {
  /** [m] */
  readonly depth?: number;
  /** Of a chamber in the gasket face, or measured volume over depth [m²]; as wide as the bore when absent. */
  readonly mouth?: number;
}

/** A family and the size it will be made to, which the ratio feels. */
export interface SizeTaken {
  readonly family: SizeFamily;
  readonly size: string;
}

export interface SkimEnd {
  readonly by: 'budget' | 'chamber' | 'ratio';
  /** That may still come off [m]. */
  readonly depth: number;
  /** What it is measured against. */
  readonly of: Characteristic;
}

export interface SkimBudget {
  readonly ratio: Characteristic;
  readonly chamber: Characteristic;
  readonly mouth: SquareMetre;
  readonly mouthSaid: boolean;
  /** Sizes chosen that were put in for what is measured. */
  readonly at: readonly SizeTaken[];
  /** Chamber and ratio as they are; `measured` where a reading of the chamber says so. */
  readonly now: { readonly chamber: number; readonly ratio: number; readonly measured: boolean };
  /** Off the head so far, where somebody entered it. */
  readonly taken: Uncertain | undefined;
  /** The least first. */
  readonly ends: readonly SkimEnd[];
  /** What the face asks for, where its flatness is out or cannot be told. */
  readonly wanted?: { readonly depth: number; readonly flatness: Assessed };
  readonly depth: number;
  readonly after: { readonly volume: number; readonly chamber: number; readonly ratio: number };
}

type Call = Extract<Relation, { calculator: unknown }>['calculator'];

/** The compression ratio of a sheet by chamber, gasket, deck and dish, the one with limits first. */
function ratioOf(book: Book): { characteristic: Characteristic; call: Call } | undefined {
  const all = [...book.characteristics.values()].flatMap((characteristic) => {
    const { relation } = characteristic;
    if (relation === undefined || typeof relation === 'string' || !('calculator' in relation)) return [];
    const call = relation.calculator;
    const moving = call.inputs.chamber_volume;
    return call.output === 'compression_ratio' && moving && 'of' in moving ? [{ characteristic, call }] : [];
  });
  return all.find(({ characteristic }) => characteristic.limits) ?? all[0];
}

/**
 * How much may still come off a head, across chamber, compression ratio and what was skimmed before. What is not
 * measured is taken by the middle of its limits, and said.
 *
 * @returns undefined where the sheet says nothing of a chamber
 */
export function skimBudget(
  book: Book,
  { reckoning, judgements }: Assessment,
  catalogue: Catalogue,
  taking: readonly SizeTaken[],
  asked: SkimAsked = {},
): Outcome<SkimBudget> | undefined {
  const found = ratioOf(book);
  if (!found) return undefined;
  const { characteristic: ratio, call } = found;
  const moving = call.inputs.chamber_volume!;
  const chamber = 'of' in moving ? book.characteristics.get(characteristicsIn(moving.of)[0]!) : undefined;
  const place = placesOf(book.sheet ?? { axes: {} }, ratio)[0] ?? {};
  const compiled = relationFunction(reckoning, catalogue, ratio.relation!, place, {
    by: 'measured',
    shape: 'rectangular',
  });
  const bore = boreOf(reckoning, catalogue, call, place);
  if (!chamber || compiled.lacking.length > 0 || bore === undefined) return undefined;
  const mouth = squareMetre(asked.mouth ?? pistonArea(metre(bore)));
  const values = Float64Array.from(
    compiled.leaves,
    ({ characteristic, term }) => sizeTaken(taking, characteristic.id) ?? term.q.value,
  );
  const felt = taking.filter(({ family }) =>
    compiled.leaves.some(({ characteristic }) => characteristic.id === family.characteristic.id),
  );
  const own = compiled.leaves.flatMap(({ characteristic }, i) =>
    characteristic.id === chamber.id ? [i] : [],
  );
  const now = {
    chamber: own.reduce((sum, i) => sum + values[i]!, 0) / own.length,
    ratio: compiled.value(values),
    measured: own.some((i) => compiled.leaves[i]!.from !== 'drawing'),
  };
  const after = (depth: number) => skimmed(compiled, values, own, mouth, depth);
  const wanted = wantedBy(judgements, chamber);
  const depth = asked.depth ?? wanted?.depth ?? 0;
  const taken = alongside(book, chamber, /skim/i);
  const takenNow = taken && numberOf(reckoning, taken);
  const ends = endsOf({ ratio, chamber, now, mouth, taken, takenNow, after });
  const volume = skimmedVolume(mouth, metre(depth));
  if (!(now.chamber - volume > 0) || !Number.isFinite(after(depth)))
    return failed({
      code: 'sizes/skim',
      at: 'skim',
      got: `${depth} m`,
      wanted: 'a depth that leaves a chamber',
      message: `A skim of ${depth} m leaves no chamber. Check the depth and its unit.`,
    });
  return ok({
    ratio,
    chamber,
    mouth,
    mouthSaid: asked.mouth !== undefined,
    at: felt,
    now,
    taken: takenNow,
    ends: ends.sort((a, b) => a.depth - b.depth),
    ...(wanted && { wanted }),
    depth,
    after: { volume, chamber: now.chamber - volume, ratio: after(depth) },
  });
}

/** The middle of the limits at the size it will be made to. */
function sizeTaken(taking: readonly SizeTaken[], id: string): number | undefined {
  const taken = taking.find(({ family }) => family.characteristic.id === id);
  if (!taken) return undefined;
  const { lower, upper } = madeLimits(taken.family, taken.size);
  return (lower + upper) / 2;
}

function skimmed(
  compiled: RelationFunction,
  values: Float64Array,
  own: readonly number[],
  mouth: SquareMetre,
  depth: number,
): number {
  const cut = Float64Array.from(values);
  const volume = skimmedVolume(mouth, metre(depth));
  for (const i of own) cut[i] = cut[i]! - volume;
  return compiled.value(cut);
}

function boreOf(reckoning: Reckoning, catalogue: Catalogue, call: Call, place: Place): number | undefined {
  const bore = call.inputs.bore;
  if (!bore) return undefined;
  if ('is' in bore) {
    const read = parseQuantity(bore.is, 'length');
    return read.ok ? read.value.value : undefined;
  }
  const { leaves, value, lacking } = relationFunction(reckoning, catalogue, bore.of, place, {
    by: 'measured',
    shape: 'rectangular',
  });
  const at = value(Float64Array.from(leaves, ({ term }) => term.q.value));
  return lacking.length === 0 && Number.isFinite(at) ? at : undefined;
}

interface Ends {
  readonly ratio: Characteristic;
  readonly chamber: Characteristic;
  readonly now: SkimBudget['now'];
  readonly mouth: SquareMetre;
  readonly taken: Characteristic | undefined;
  readonly takenNow: Uncertain | undefined;
  readonly after: (depth: number) => number;
}

function endsOf({ ratio, chamber, now, mouth, taken, takenNow, after }: Ends): SkimEnd[] {
  const most = taken && limitsOf(taken, 'new', undefined)?.upper;
  const least = limitsOf(chamber, 'new', undefined)?.lower;
  const greatest = limitsOf(ratio, 'new', undefined)?.upper;
  return [
    ...(taken && most !== undefined
      ? [{ by: 'budget' as const, depth: most - (takenNow?.value ?? 0), of: taken }]
      : []),
    ...(least === undefined
      ? []
      : [
          {
            by: 'chamber' as const,
            depth: skimForVolume(cubicMetre(now.chamber), cubicMetre(least), mouth),
            of: chamber,
          },
        ]),
    ...(greatest === undefined
      ? []
      : [{ by: 'ratio' as const, depth: depthFor(after, greatest), of: ratio }]),
  ];
}

/** A tenth of an inch is more than any head gives. */
const DEEPEST = 0.00254;

/** The depth at which the ratio is reached, by halving: it rises with every cut. */
function depthFor(after: (depth: number) => number, greatest: number): number {
  let [low, high] = [-DEEPEST, DEEPEST];
  for (let i = 0; i < 60; i++) {
    const half = (low + high) / 2;
    const ratio = after(half);
    if (Number.isFinite(ratio) && ratio < greatest) low = half;
    else high = half;
  }
  return (low + high) / 2;
}

/** What is said of the same part in a word: sheets name it so, and no field of theirs does. */
const alongside = (book: Book, { position }: Characteristic, word: RegExp): Characteristic | undefined =>
  [...book.characteristics.values()].find(
    (one) => one.kind === 'length' && one.position === position && word.test(`${one.id} ${one.name}`),
  );

function numberOf(reckoning: Reckoning, characteristic: Characteristic): Uncertain | undefined {
  const { operand } = reckoning.at(characteristic.id, {});
  return operand.kind === 'value' ? operand.q : undefined;
}

/** At least the hollow as measured and its doubt comes off a face that is out or may be. */
function wantedBy(judgements: readonly Assessed[], { position }: Characteristic): SkimBudget['wanted'] {
  const flatness = judgements.find(
    ({ characteristic: one, status, operand }) =>
      one.position === position &&
      one.kind === 'length' &&
      /flat/i.test(`${one.id} ${one.name}`) &&
      (status === 'out' || status === 'cannot-tell') &&
      operand.kind === 'value',
  );
  if (flatness?.operand.kind !== 'value') return undefined;
  const { q } = flatness.operand;
  return { depth: q.value + 2 * standardUncertainty(q), flatness };
}
