import { type Calculator, readInput } from '@fettle/core';
import { constantOf } from '../assess/constant.ts';
import type { Reckoning } from '../assess/reckoning.ts';
import { axesOf } from '../assess/relation-axes.ts';
import type { Catalogue } from '../assess/relations.ts';
import { type Place, placeAlong, placeReferred } from '../sheet/places.ts';
import {
  type CalculatorInput,
  isOverSpots,
  type Linear,
  type Reduction,
  type Relation,
} from '../sheet/relation.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { drawnLeaf, type Leaf, type LeafRule, measuredLeaf } from './leaves.ts';

type Value = (x: Float64Array) => number;

/** A relation as a plain function of its inputs, each input once. */
export interface RelationFunction {
  readonly leaves: readonly Leaf[];
  readonly value: Value;
  /** Inputs with neither readings nor both limits for new parts. */
  readonly lacking: readonly { readonly characteristic: Characteristic; readonly place: Place }[];
}

/**
 * Writes a relation out as a function that can be called a hundred thousand times. An input that has a size of its own,
 * measured or by limits, is a term; one that follows from others is replaced by them.
 */
export function relationFunction(
  reckoning: Reckoning,
  catalogue: Catalogue,
  relation: Relation,
  place: Place,
  rule: LeafRule,
): RelationFunction {
  const writer = new Writer(reckoning, catalogue, rule);
  const value = writer.of(relation, place);
  return { leaves: writer.leaves, value, lacking: writer.lacking };
}

const NOTHING: Value = () => Number.NaN;

class Writer {
  readonly leaves: Leaf[] = [];
  readonly lacking: { characteristic: Characteristic; place: Place }[] = [];
  private readonly indices = new Map<string, number>();
  private readonly reckoning: Reckoning;
  private readonly catalogue: Catalogue;
  private readonly rule: LeafRule;

  constructor(reckoning: Reckoning, catalogue: Catalogue, rule: LeafRule) {
    this.reckoning = reckoning;
    this.catalogue = catalogue;
    this.rule = rule;
  }

  of(relation: Relation, place: Place): Value {
    if (typeof relation === 'string') return this.characteristic(relation, place);
    if ('characteristic' in relation)
      return this.characteristic(relation.characteristic, placeReferred(relation, place));
    if ('linear' in relation) return this.linear(relation.linear, place);
    if ('reduce' in relation) return this.reduced(relation.reduce, place);
    if ('ratio' in relation) {
      const [of, by] = [this.linear(relation.ratio.of, place), this.linear(relation.ratio.by, place)];
      return (x) => of(x) / by(x);
    }
    return this.calculated(relation.calculator, place);
  }

  private characteristic(id: string, place: Place): Value {
    const characteristic = this.reckoning.characteristic(id);
    const leaf =
      (this.rule.by === 'measured' ? measuredLeaf(this.reckoning, characteristic, place) : undefined) ??
      drawnLeaf(this.reckoning, characteristic, place, this.rule);
    if (leaf) return this.input(leaf);
    if (characteristic.relation !== undefined)
      return this.of(characteristic.relation, placeAlong(place, characteristic.places));
    this.lacking.push({ characteristic, place: placeAlong(place, characteristic.places) });
    return NOTHING;
  }

  private input(leaf: Leaf): Value {
    const known = this.indices.get(leaf.term.name);
    const index = known ?? this.leaves.push(leaf) - 1;
    this.indices.set(leaf.term.name, index);
    return (x) => x[index]!;
  }

  private linear({ terms, constant }: Linear, place: Place): Value {
    const parts = terms.map(({ factor, of }) => ({ factor, value: this.of(of, place) }));
    const base = constantOf(constant) ?? Number.NaN;
    return (x) => {
      let sum = base;
      for (const { factor, value } of parts) sum += factor * value(x);
      return sum;
    };
  }

  private reduced(
    { by, over, of }: { by: Reduction; over: readonly string[]; of: Relation },
    place: Place,
  ): Value {
    const axes = axesOf(this.reckoning.book, of);
    let spread: Place[] = [{}];
    for (const axis of over)
      spread = spread.flatMap((at) => (axes.get(axis) ?? []).map((value) => ({ ...at, [axis]: value })));
    const parts = spread.map((more) => this.of(of, { ...place, ...more }));
    const reduce = REDUCTIONS[by];
    return (x) => reduce(parts.map((part) => part(x)));
  }

  private calculated(
    call: { name: string; inputs: Record<string, CalculatorInput>; output: string },
    place: Place,
  ): Value {
    const calculator = this.catalogue.get(call.name);
    if (!calculator) return NOTHING;
    // What is read all over a face has no limits of its own to stack up.
    if (isOverSpots({ calculator: call })) return NOTHING;
    const moving = Object.entries(call.inputs).flatMap(([key, input]) =>
      'of' in input ? [{ key, value: this.of(input.of, place) }] : [],
    );
    const fixed = Object.fromEntries(
      Object.entries(call.inputs).flatMap(([key, input]) => ('is' in input ? [[key, input.is]] : [])),
    );
    return calculatorFunction(calculator, fixed, moving, call.output);
  }
}

const REDUCTIONS: Readonly<Record<Reduction, (values: readonly number[]) => number>> = {
  worst: (values) => Math.max(...values),
  greatest: (values) => Math.max(...values),
  least: (values) => Math.min(...values),
  range: (values) => Math.max(...values) - Math.min(...values),
  mean: (values) => values.reduce((sum, x) => sum + x, 0) / values.length,
  'mean-cube': (values) => Math.cbrt(values.reduce((sum, x) => sum + x ** 3, 0) / values.length),
};

/**
 * A calculator with some inputs held: what is held is read once, with its fallbacks; what moves is held to its range,
 * and a value outside gives no answer.
 */
function calculatorFunction(
  calculator: Calculator,
  fixed: Readonly<Record<string, string>>,
  moving: readonly { readonly key: string; readonly value: Value }[],
  output: string,
): Value {
  let held: Record<string, unknown> | undefined;
  return (x) => {
    const now: Record<string, number> = {};
    for (const { key, value } of moving) {
      const at = value(x);
      if (!isInRange(calculator, key, at)) return Number.NaN;
      now[key] = at;
    }
    if (!held) {
      const read = readInput(calculator, { ...fixed, ...now }, { bareNumbersAreSi: true });
      if (!read.ok) return Number.NaN;
      held = { ...(read.value as Record<string, unknown>) };
    }
    for (const key of Object.keys(now)) held[key] = now[key];
    const answer = calculator.compute(held as Parameters<Calculator['compute']>[0]);
    return 'results' in answer ? Number(answer.results[output]) : Number.NaN;
  };
}

function isInRange(calculator: Calculator, key: string, value: number): boolean {
  const field = calculator.input[key];
  if (!field || !('range' in field)) return Number.isFinite(value);
  const { min, above, max, below } = field.range;
  return (
    Number.isFinite(value) &&
    (min === undefined || value >= min) &&
    (above === undefined || value > above) &&
    (max === undefined || value <= max) &&
    (below === undefined || value < below)
  );
}
