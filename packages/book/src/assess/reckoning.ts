import { answered, type Calculator, parseQuantity, type QuantityKind } from '@fettle/core';
import type { Book, PartState, ReadingOnRecord } from '../fold/book.ts';
import { isAt, type Place, placeAlong, placesOf, placeText, positionAt } from '../sheet/places.ts';
import type { Relation } from '../sheet/relation.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { merged, narrowest, repeatedly, type Witness } from './merging.ts';
import {
  functionOf,
  greatestOf,
  interval,
  leastOf,
  linearOf,
  MISSING,
  meanCubeOf,
  meanOf,
  type Operand,
  rangeOf,
  valued,
} from './operand.ts';
import { readOut } from './reading.ts';
import { axesOf } from './relation-axes.ts';
import type { Selection } from './selection.ts';
import { stateNamed } from './selection.ts';
import { narrowed } from './verdict.ts';

export type { Witness } from './merging.ts';

/** The calculators a relation may name: `CATALOGUE` of core, as a rule. Handed in, so that a page may load it late. */
export type Catalogue = ReadonlyMap<string, Calculator>;

/** What is known of a characteristic at one place, all witnesses together. */
export interface Known {
  /** A number where there is one, else an interval, else missing. */
  readonly operand: Operand;
  /** Leaves that cut the number. */
  readonly cut?: Operand & { kind: 'interval' };
  readonly witnesses: readonly Witness[];
  /** False when numbers that should agree do not. */
  readonly consistent: boolean;
  readonly entries: readonly string[];
  /** Readings wanted and not there: characteristic and place. */
  readonly missing: readonly { readonly characteristic: string; readonly place: Place }[];
  readonly states: ReadonlyMap<string, PartState>;
}

/** The operand of a relation with what it rests on. */
interface Reckoned {
  readonly operand: Operand;
  readonly entries: readonly string[];
  readonly missing: Known['missing'];
  readonly states: ReadonlyMap<string, PartState>;
}

const NOTHING: Reckoned = { operand: MISSING, entries: [], missing: [], states: new Map() };

function together(parts: readonly Reckoned[], operand: Operand): Reckoned {
  return {
    operand,
    entries: [...new Set(parts.flatMap((part) => part.entries))],
    missing: parts.flatMap((part) => part.missing),
    states: new Map(parts.flatMap((part) => [...part.states])),
  };
}

/**
 * Reckons what is known of any characteristic at any place, for one selection of parts.
 * Each answer is worked out once; relations ask for their inputs here again.
 */
export class Reckoning {
  private readonly known = new Map<string, Known>();
  private readonly readings = new Map<string, ReadingOnRecord[]>();
  readonly book: Book;
  readonly selection: Selection;
  private readonly catalogue: Catalogue;

  constructor(book: Book, selection: Selection, catalogue: Catalogue) {
    this.book = book;
    this.selection = selection;
    this.catalogue = catalogue;
    for (const reading of book.readings) {
      if (reading.standing !== 'counts') continue;
      const own = this.readings.get(reading.body.characteristic) ?? [];
      own.push(reading);
      this.readings.set(reading.body.characteristic, own);
    }
  }

  places(characteristic: Characteristic): Place[] {
    return placesOf(this.book.sheet ?? { axes: {} }, characteristic);
  }

  /** @throws on an unknown characteristic: the sheet's check has refused it before */
  characteristic(id: string): Characteristic {
    const found = this.book.characteristics.get(id);
    if (!found) throw new Error(`no characteristic ${id}`);
    return found;
  }

  at(id: string, place: Place): Known {
    const key = `${id}@${JSON.stringify(place)}`;
    const done = this.known.get(key);
    if (done) return done;
    const known = this.reckoned(this.characteristic(id), place);
    this.known.set(key, known);
    return known;
  }

  /** The readings that count here: same characteristic, same state, same mates, and a place that covers this one. */
  private own(characteristic: Characteristic, place: Place): ReadingOnRecord[] {
    const state = characteristic.position && this.selection(positionAt(characteristic.position, place));
    const mates = (characteristic.mates ?? []).map((mate) => this.selection(positionAt(mate, place)));
    return (this.readings.get(characteristic.id) ?? []).filter(
      ({ body }) =>
        isAt(body.place ?? {}, place) &&
        (characteristic.position === undefined || body.state === state) &&
        mates.every((mate) => mate === undefined || (body.mates ?? []).includes(mate)) &&
        // Read against a part that has been taken out since.
        (characteristic.mates === undefined || (body.mates ?? []).every((mate) => mates.includes(mate))),
    );
  }

  /** The state of the part a characteristic belongs to at a place. */
  ownState(characteristic: Characteristic, place: Place): PartState | undefined {
    return this.stateIn(characteristic.position, place);
  }

  private stateIn(position: string | undefined, place: Place): PartState | undefined {
    const id = position === undefined ? undefined : this.selection(positionAt(position, place));
    return id === undefined ? undefined : stateNamed(this.book, id)?.state;
  }

  /** States of the part it belongs to and of those it is read against. */
  private stateAt(characteristic: Characteristic, place: Place): Map<string, PartState> {
    const states = [characteristic.position, ...(characteristic.mates ?? [])].flatMap(
      (position) => this.stateIn(position, place) ?? [],
    );
    return new Map(states.map((state) => [state.id, state]));
  }

  private reckoned(characteristic: Characteristic, place: Place): Known {
    const witnesses: Witness[] = [];
    const rests: Reckoned[] = [{ ...NOTHING, states: this.stateAt(characteristic, place) }];
    const byWay = new Map<string, ReadingOnRecord[]>();
    for (const reading of this.own(characteristic, place)) {
      const way = `${reading.body.instrument}\n${reading.body.measurand ?? characteristic.measurand}\n${reading.body.value === undefined}`;
      byWay.set(way, [...(byWay.get(way) ?? []), reading]);
    }
    for (const readings of byWay.values()) {
      const witness = this.witness(characteristic, place, readings);
      witnesses.push(witness.seen);
      rests.push(witness.rest);
    }
    if (characteristic.relation !== undefined) {
      const derived = this.relation(characteristic.relation, place);
      const enough = witnesses.some(({ operand }) => operand.kind !== 'missing');
      rests.push({ ...derived, missing: enough ? [] : derived.missing });
      if (derived.operand.kind !== 'missing')
        witnesses.push({
          by: 'relation',
          with: 'relation',
          measurand: characteristic.measurand,
          operand: derived.operand,
          consistent: true,
          entries: derived.entries,
        });
    } else if (witnesses.length === 0) {
      rests.push({ ...NOTHING, missing: [{ characteristic: characteristic.id, place }] });
    }
    const all = together(rests, MISSING);
    const known = merged(witnesses, `${characteristic.id}@${placeText(place)}`);
    const unsaid = known.operand.kind === 'missing' && all.missing.length === 0;
    return {
      ...known,
      witnesses,
      entries: all.entries,
      // Readings that cannot be read, or a relation without an answer: only this thing itself can still be read.
      missing: unsaid ? [{ characteristic: characteristic.id, place }] : all.missing,
      states: all.states,
    };
  }

  /** Readings of one instrument and one measurand, brought to the characteristic's own measurand. */
  private witness(
    characteristic: Characteristic,
    place: Place,
    readings: readonly ReadingOnRecord[],
  ): { seen: Witness; rest: Reckoned } {
    const { body } = readings[0]!;
    const measurand = body.measurand ?? characteristic.measurand;
    const way = measurand === characteristic.measurand ? undefined : characteristic.read_as?.[measurand];
    const read = readings.flatMap((reading) => readOut(this.book, characteristic, reading));
    const leaves = body.value === undefined;
    const entries = readings.map(({ entry }) => entry.id);
    const about = `${characteristic.id}@${placeText(place)}/${body.instrument}/${measurand}`;
    const { operand: direct, consistent } = leaves ? narrowest(read) : repeatedly(read, about);
    const plus = (way?.plus ?? []).map(({ factor, of }) => ({ factor, reckoned: this.relation(of, place) }));
    const operand = way
      ? linearOf(
          [
            { factor: way.factor, of: direct },
            ...plus.map(({ factor, reckoned }) => ({ factor, of: reckoned.operand })),
          ],
          0,
        )
      : direct;
    const rest = together([{ ...NOTHING, entries }, ...plus.map(({ reckoned }) => reckoned)], operand);
    const instrument = this.book.instruments.get(body.instrument);
    return {
      seen: {
        by: leaves ? 'leaves' : 'readings',
        with: instrument?.body.name ?? body.instrument,
        measurand,
        operand,
        consistent,
        entries: rest.entries,
      },
      rest,
    };
  }

  relation(relation: Relation, place: Place): Reckoned {
    if (typeof relation === 'string') return this.reference(relation, place);
    if ('characteristic' in relation) {
      const renamed = Object.fromEntries(
        Object.entries(relation.rename ?? {}).flatMap(([axis, here]) =>
          place[here] === undefined ? [] : [[axis, place[here]]],
        ),
      );
      return this.reference(relation.characteristic, { ...place, ...renamed, ...relation.at });
    }
    if ('linear' in relation) return this.linear(relation.linear, place);
    if ('reduce' in relation) return this.reduced(relation.reduce, place);
    if ('ratio' in relation) {
      const of = this.linear(relation.ratio.of, place);
      const by = this.linear(relation.ratio.by, place);
      return together(
        [of, by],
        functionOf([of.operand, by.operand], ([a, b]) => a! / b!),
      );
    }
    return this.calculated(relation.calculator, place);
  }

  private reference(id: string, place: Place): Reckoned {
    const characteristic = this.characteristic(id);
    const own = placeAlong(place, characteristic.places);
    const known = this.at(id, own);
    const cutDown =
      known.cut && known.operand.kind === 'value'
        ? valued(narrowed(known.operand.q, known.cut))
        : known.operand;
    const operand =
      cutDown.kind === 'missing' && characteristic.non_negative
        ? interval({ value: 0, terms: [] }, undefined)
        : cutDown;
    return { operand, entries: known.entries, missing: known.missing, states: known.states };
  }

  private linear(
    { terms, constant }: { terms: { factor: number; of: Relation }[]; constant?: string | undefined },
    place: Place,
  ): Reckoned {
    const parts = terms.map(({ factor, of }) => ({ factor, reckoned: this.relation(of, place) }));
    return together(
      parts.map(({ reckoned }) => reckoned),
      linearOf(
        parts.map(({ factor, reckoned }) => ({ factor, of: reckoned.operand })),
        constant === undefined ? 0 : this.constant(constant),
      ),
    );
  }

  /** A constant carries its own unit, so its kind is whatever that unit's kind is. */
  private constant(text: string): number {
    for (const kind of CONSTANT_KINDS) {
      const read = parseQuantity(text, kind);
      if (read.ok) return read.value.value;
    }
    throw new Error(`"${text}" is no quantity`);
  }

  private reduced(
    { by, over, of }: { by: string; over: readonly string[]; of: Relation },
    place: Place,
  ): Reckoned {
    const axes = axesOf(this.book, of);
    let spread: Place[] = [{}];
    for (const axis of over)
      spread = spread.flatMap((at) => (axes.get(axis) ?? []).map((value) => ({ ...at, [axis]: value })));
    const parts = spread.map((more) => this.relation(of, { ...place, ...more }));
    return together(
      parts,
      reducedOperand(
        by,
        parts.map(({ operand }) => operand),
      ),
    );
  }

  private calculated(
    call: {
      name: string;
      inputs: Record<string, { of: Relation } | { is: string }>;
      output: string;
    },
    place: Place,
  ): Reckoned {
    const calculator = this.catalogue.get(call.name);
    if (!calculator) throw new Error(`no calculator ${call.name}`);
    const fixed: Record<string, string> = {};
    const moving: { key: string; reckoned: Reckoned }[] = [];
    for (const [key, input] of Object.entries(call.inputs)) {
      if ('of' in input) moving.push({ key, reckoned: this.relation(input.of, place) });
      else fixed[key] = input.is;
    }
    const operand = functionOf(
      moving.map(({ reckoned }) => reckoned.operand),
      (x) => {
        const input = { ...fixed, ...Object.fromEntries(moving.map(({ key }, i) => [key, x[i]!])) };
        // Read as everybody's input is: fallbacks filled in, a gap below zero refused rather than computed with.
        const answer = answered(calculator, input, { bareNumbersAreSi: true });
        return 'results' in answer ? Number(answer.results[call.output]?.value) : Number.NaN;
      },
    );
    return together(
      moving.map(({ reckoned }) => reckoned),
      operand,
    );
  }
}

const CONSTANT_KINDS: readonly QuantityKind[] = [
  'length',
  'force',
  'angle',
  'volume',
  'area',
  'pressure',
  'stiffness',
  'mass',
  'torque',
  'speed',
  'ratio',
];

/** One number out of several places; `worst` has no direction here, so it is the greatest. */
export function reducedOperand(by: string, operands: readonly Operand[]): Operand {
  if (by === 'mean') return meanOf(operands);
  if (by === 'mean-cube') return meanCubeOf(operands);
  if (by === 'range') return rangeOf(operands);
  if (by === 'least') return leastOf(operands);
  return greatestOf(operands);
}
