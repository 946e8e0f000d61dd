import type { Book, PartState, ReadingOnRecord } from '../fold/book.ts';
import { axesIn, isAt, type Place, placeAlong, placesOf, placeText, positionAt } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { distinct, type Known, NO_ANSWER, NOTHING, type Reckoned, together } from './known.ts';
import { merged, narrowest, repeatedly, type Witness } from './merging.ts';
import { linearOf, MISSING } from './operand.ts';
import { readingCautions, readOut } from './reading.ts';
import { type Catalogue, Relations } from './relations.ts';
import { type Selection, stateNamed } from './selection.ts';
import type { Spot } from './spot.ts';

/**
 * Axes that only say where the part stood when it was read. What is measured on the part alone goes with it to
 * another place ("P4 in bore 3"); what rests on mates, such as a shell's bore in its housing, holds there only.
 */
const followed = ({ position, mates }: Characteristic): readonly string[] =>
  position === undefined || mates !== undefined ? [] : axesIn(position);

/** Two witnesses at five spots, or three at three: past that all together is believed only where none disagree. */
const MOST_CHOICES = 32;

const spotKey = (id: string, place: Place): string => `${id}@${JSON.stringify(place)}`;

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
  private readonly catalogue: Catalogue;
  private readonly relations: Relations;

  /** The witness believed alone at a spot, by its number; empty where all are heard together. */
  private readonly believed: ReadonlyMap<string, number>;
  private readonly hearings = new Map<string, Reckoning>();

  constructor(
    book: Book,
    selection: Selection,
    catalogue: Catalogue,
    believed: ReadonlyMap<string, number> = new Map(),
  ) {
    this.book = book;
    this.selection = selection;
    this.catalogue = catalogue;
    this.believed = believed;
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
    const key = spotKey(id, place);
    const done = this.known.get(key);
    if (done) return done;
    const known = this.reckoned(this.characteristic(id), place);
    this.known.set(key, known);
    return known;
  }

  /**
   * Reckonings in which, wherever witnesses disagree, one of them is believed alone: every choice among them once.
   *
   * @returns undefined where there are more choices than are worth working out
   */
  heard(disputes: readonly Spot[]): readonly Reckoning[] | undefined {
    let choices: [string, number][][] = [[]];
    for (const { characteristic, place } of disputes) {
      const { witnesses } = this.at(characteristic, place);
      const speaking = witnesses.flatMap(({ operand }, i) => (operand.kind === 'missing' ? [] : [i]));
      const key = spotKey(characteristic, place);
      choices = choices.flatMap((chosen) => speaking.map((i): [string, number][] => [...chosen, [key, i]]));
      if (choices.length > MOST_CHOICES) return undefined;
    }
    return choices.map((chosen) => {
      const key = JSON.stringify(chosen);
      const known = this.hearings.get(key);
      if (known) return known;
      const one = new Reckoning(this.book, this.selection, this.catalogue, new Map(chosen));
      this.hearings.set(key, one);
      return one;
    });
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
    let noise: Reckoned['noise'];
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
      noise = derived.noise;
      const enough = witnesses.some(({ operand }) => operand.kind !== 'missing');
      rests.push({ ...derived, missing: enough ? [] : derived.missing });
      if (derived.operand.kind !== 'missing')
        witnesses.push({
          by: 'relation',
          with: 'relation',
          measurand: characteristic.measurand,
          operand: derived.operand,
          consistent: derived.disputes.length === 0,
          disputes: derived.disputes,
          entries: derived.entries,
        });
    } else if (witnesses.length === 0) {
      rests.push({ ...NOTHING, missing: [{ characteristic: characteristic.id, place }] });
    }
    const all = together(rests, MISSING);
    const about = `${characteristic.id}@${placeText(place)}`;
    const own = { characteristic: characteristic.id, place };
    const alone = this.believed.get(spotKey(characteristic.id, place));
    const heard = alone === undefined ? witnesses : witnesses.slice(alone, alone + 1);
    const known = merged(heard, about);
    const disputes = alone === undefined ? all.disputes : (heard[0]?.disputes ?? []);
    // A formula whose inputs are disputed is no dispute of its own: its inputs say so.
    const contradicted =
      !known.consistent &&
      (disputes.length === 0 ||
        !merged(
          heard.map((one) => (one.disputes.length > 0 ? { ...one, consistent: true } : one)),
          about,
        ).consistent);
    const unsaid = known.operand.kind === 'missing' && all.missing.length === 0;
    return {
      ...known,
      witnesses,
      disputes: contradicted ? [...disputes, own] : disputes,
      cautions: all.cautions,
      ...(noise && { noise }),
      entries: all.entries,
      missing: unsaid ? this.stillToRead(own, all) : all.missing,
      states: all.states,
    };
  }

  /**
   * What to read where everything was read and nothing came of it: again what a formula could not use; otherwise only
   * this thing itself can still be read.
   */
  private stillToRead(own: Spot, { entries, cautions }: Reckoned): readonly Spot[] {
    if (!cautions.some(({ code }) => code === NO_ANSWER)) return [own];
    const behind = new Set(entries);
    const read = [...this.readings.values()].flat().filter(({ entry }) => behind.has(entry.id));
    return read.length === 0
      ? [own]
      : distinct(read.map(({ body }) => ({ characteristic: body.characteristic, place: body.place ?? {} })));
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
    const cautions = distinct(
      readings.flatMap((reading) => readingCautions(this.book, characteristic, reading)),
    );
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
    const rest = together(
      [{ ...NOTHING, entries, cautions }, ...plus.map(({ reckoned }) => reckoned)],
      operand,
    );
    const instrument = this.book.instruments.get(body.instrument);
    return {
      seen: {
        by: leaves ? 'leaves' : 'readings',
        with: instrument?.body.name ?? body.instrument,
        measurand,
        operand,
        consistent: consistent && rest.disputes.length === 0,
        disputes: rest.disputes,
        entries: rest.entries,
      },
      rest,
    };
  }
}
