import { answered, type Calculator, linear, type Uncertain } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import { type Place, placeAlong, placeReferred } from '../sheet/places.ts';
import type { CalculatorInput, Relation } from '../sheet/relation.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { constantOf } from './constant.ts';
import { type Known, NOTHING, type Reckoned, together } from './known.ts';
import { functionOf, interval, linearOf, MISSING, valued } from './operand.ts';
import { rangeNoise } from './range-noise.ts';
import { reducedOperand } from './reduced-operand.ts';
import { axesOf } from './relation-axes.ts';
import { narrowed } from './verdict.ts';

/** The calculators a relation may name: `CATALOGUE` of core, as a rule. Handed in, so that a page may load it late. */
export type Catalogue = ReadonlyMap<string, Calculator>;

/** Where a relation finds what it rests on. */
interface Source {
  readonly book: Book;
  characteristic(id: string): Characteristic;
  at(id: string, place: Place): Known;
}

/** Works out relations between characteristics, each place by itself. */
export class Relations {
  private readonly source: Source;
  private readonly catalogue: Catalogue;

  constructor(source: Source, catalogue: Catalogue) {
    this.source = source;
    this.catalogue = catalogue;
  }

  at(relation: Relation, place: Place): Reckoned {
    if (typeof relation === 'string') return this.reference(relation, place);
    if ('characteristic' in relation)
      return this.reference(relation.characteristic, placeReferred(relation, place));
    if ('linear' in relation) return this.linear(relation.linear, place);
    if ('reduce' in relation) return this.reduced(relation.reduce, place);
    if ('ratio' in relation) {
      const of = this.linear(relation.ratio.of, place);
      const by = this.linear(relation.ratio.by, place);
      return together(
        [of, by],
        functionOf(
          [of.operand, by.operand],
          ([a, b]) => a! / b!,
          () => 'it is divided by nothing.',
        ),
      );
    }
    return this.calculated(relation.calculator, place);
  }

  private reference(id: string, place: Place): Reckoned {
    const characteristic = this.source.characteristic(id);
    const own = placeAlong(place, characteristic.places);
    const known = this.source.at(id, own);
    const cutDown =
      known.cut && known.operand.kind === 'value'
        ? valued(narrowed(known.operand.q, known.cut))
        : known.operand;
    const operand =
      cutDown.kind === 'missing' && characteristic.non_negative
        ? interval({ value: 0, terms: [] }, undefined)
        : cutDown;
    const { entries, missing, states, disputes, cautions } = known;
    return { operand, entries, missing, states, disputes, cautions };
  }

  private linear(
    { terms, constant }: { terms: { factor: number; of: Relation }[]; constant?: string | undefined },
    place: Place,
  ): Reckoned {
    const parts = terms.map(({ factor, of }) => ({ factor, reckoned: this.at(of, place) }));
    return together(
      parts.map(({ reckoned }) => reckoned),
      linearOf(
        parts.map(({ factor, reckoned }) => ({ factor, of: reckoned.operand })),
        constant === undefined ? 0 : this.constant(constant),
      ),
    );
  }

  private constant(text: string): number {
    const value = constantOf(text);
    if (value === undefined) throw new Error(`"${text}" is no quantity`);
    return value;
  }

  private reduced(
    { by, over, of }: { by: string; over: readonly string[]; of: Relation },
    place: Place,
  ): Reckoned {
    const axes = axesOf(this.source.book, of);
    let spread: Place[] = [{}];
    for (const axis of over)
      spread = spread.flatMap((at) => (axes.get(axis) ?? []).map((value) => ({ ...at, [axis]: value })));
    const parts = spread.map((more) => this.at(of, { ...place, ...more }));
    const operands = parts.map(({ operand }) => operand);
    const noise = by === 'range' ? rangeNoise(operands) : undefined;
    return { ...together(parts, reducedOperand(by, operands)), ...(noise && { noise }) };
  }

  private calculated(
    call: {
      name: string;
      inputs: Record<string, CalculatorInput>;
      output: string;
    },
    place: Place,
  ): Reckoned {
    const calculator = this.catalogue.get(call.name);
    // The sheet's check knows every name; a page that has not loaded the catalogue yet has no answer so far.
    if (!calculator) return NOTHING;
    const fixed: Record<string, string> = {};
    const moving: { key: string; reckoned: Reckoned }[] = [];
    for (const [key, input] of Object.entries(call.inputs)) {
      // A list is the whole of such a calculator's input: the sheet's check has seen to it.
      if ('of' in input && input.over !== undefined)
        return this.overSpots(calculator, key, { of: input.of, over: input.over }, call.output, place);
      if ('of' in input) moving.push({ key, reckoned: this.at(input.of, place) });
      else fixed[key] = input.is;
    }
    let refused: string | undefined;
    const operand = functionOf(
      moving.map(({ reckoned }) => reckoned.operand),
      (x) => {
        const input = { ...fixed, ...Object.fromEntries(moving.map(({ key }, i) => [key, x[i]!])) };
        // Read as everybody's input is: fallbacks filled in, a gap below zero refused rather than computed with.
        const answer = answered(calculator, input, { bareNumbersAreSi: true });
        if ('results' in answer) return Number(answer.results[call.output]?.value);
        refused ??= answer.issues[0]?.message;
        return Number.NaN;
      },
      () => refused ?? `${call.name} gives no ${call.output.replaceAll('_', ' ')} for these readings.`,
    );
    return together(
      moving.map(({ reckoned }) => reckoned),
      operand,
    );
  }

  /** What is read all over a face, put to a calculator that says how its answer moves with each reading. */
  private overSpots(
    calculator: Calculator,
    key: string,
    { of, over }: { readonly of: Relation; readonly over: string },
    output: string,
    place: Place,
  ): Reckoned {
    const { book } = this.source;
    const spots = book.sheet?.spots?.[over] ?? {};
    const values = axesOf(book, of).get(over) ?? [];
    const read = values.map((value) => ({
      spot: spots[value],
      reckoned: this.at(of, { ...place, [over]: value }),
    }));
    const points = read.flatMap(({ spot, reckoned: { operand } }) =>
      spot && operand.kind === 'value' ? [{ spot, q: operand.q }] : [],
    );
    const answer = answered(
      calculator,
      { [key]: points.map(({ spot: [x, y], q }) => [x, y, q.value]) },
      { bareNumbersAreSi: true },
    );
    const rests = read.map(({ reckoned }) => reckoned);
    // With none of the spots read there is nothing to be worked out yet.
    const because = points.length > 0 && !('results' in answer) ? answer.issues[0]?.message : undefined;
    if (!('results' in answer))
      return together(rests, because === undefined ? MISSING : { kind: 'missing', because });
    const value = Number(answer.results[output]?.value);
    const weights = answer.results.weights?.value as readonly number[];
    const moved = linear(points.map(({ q }, i) => ({ factor: weights[i]!, of: q })));
    // What cancels leaves what the arithmetic rounds: no cause of doubt.
    const most = Math.max(0, ...moved.terms.map(({ u }) => Math.abs(u)));
    const found: Uncertain = { value, terms: moved.terms.filter(({ u }) => Math.abs(u) > 1e-12 * most) };
    // Spots not read yet can only add to it.
    return together(rests, points.length === values.length ? valued(found) : interval(found, undefined));
  }
}
