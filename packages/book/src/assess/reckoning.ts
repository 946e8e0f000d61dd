import type { Book, PartState, ReadingOnRecord } from '../fold/book.ts';
import { axesIn, isAt, type Place, placeAlong, placesOf, placeText, positionAt } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { type Known, NOTHING, type Reckoned, together } from './known.ts';
import { merged, narrowest, repeatedly, type Witness } from './merging.ts';
import { linearOf, MISSING } from './operand.ts';
import { readOut } from './reading.ts';
import { type Catalogue, Relations } from './relations.ts';
import { type Selection, stateNamed } from './selection.ts';

/**
 * Axes that only say where the part stood when it was read. What is measured on the part alone goes with it to
 * another place ("P4 in bore 3"); what rests on mates, such as a shell's bore in its housing, holds there only.
 */
const followed = ({ position, mates }: Characteristic): readonly string[] =>
  position === undefined || mates !== undefined ? [] : axesIn(position);

/**
 * Reckons what is known of any characteristic at any place, for one selection of parts.
 * Each answer is worked out once; relations ask for their inputs here again.
 */
export class Reckoning {
  private readonly known = new Map<string, Known>();
  private readonly readings = new Map<string, ReadingOnRecord[]>();
  /** Readings by an instrument whose check failed: what rests on them has a figure and no verdict. */
  readonly again = new Set<string>();
  /** Readings by leaves laid together, whose film between is assumed. */
  readonly stacked = new Set<string>();
  /** Where each reading stands among all of them, by its entry. */
  private readonly byEntry = new Map<string, number>();
  readonly book: Book;
  readonly selection: Selection;
  private readonly relations: Relations;

  constructor(book: Book, selection: Selection, catalogue: Catalogue) {
    this.book = book;
    this.selection = selection;
    this.relations = new Relations(this, catalogue);
    for (const [i, reading] of book.readings.entries()) {
      this.byEntry.set(reading.entry.id, i);
      if (reading.standing === 'to-be-taken-again') this.again.add(reading.entry.id);
      else if (reading.standing !== 'counts') continue;
      if (reading.body.goes_stack || reading.body.stops_stack) this.stacked.add(reading.entry.id);
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

  /** The readings among some entries, in the order of the ledger. */
  readingsOf(entries: readonly string[]): ReadingOnRecord[] {
    const found = new Set(entries.flatMap((id) => this.byEntry.get(id) ?? []));
    return [...found].sort((a, b) => a - b).map((i) => this.book.readings[i]!);
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
    const moving = followed(characteristic);
    const fixed = characteristic.places.filter((axis) => !moving.includes(axis));
    const held = (read: Place): Place => (moving.length === 0 ? read : placeAlong(read, fixed));
    const here = (this.readings.get(characteristic.id) ?? []).filter(
      ({ body }) =>
        isAt(held(body.place ?? {}), place) &&
        (characteristic.position === undefined || body.state === state) &&
        mates.every((mate) => mate === undefined || (body.mates ?? []).includes(mate)) &&
        // Read against a part that has been taken out since.
        (characteristic.mates === undefined || (body.mates ?? []).every((mate) => mates.includes(mate))),
    );
    // Taken again, what was in doubt is no longer asked.
    const sound = here.filter(({ entry }) => !this.again.has(entry.id));
    return sound.length > 0 ? sound : here;
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
      const derived = this.relations.at(characteristic.relation, place);
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
    const plus = (way?.plus ?? []).map(({ factor, of }) => ({
      factor,
      reckoned: this.relations.at(of, place),
    }));
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
}
