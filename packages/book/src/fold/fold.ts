import type { Issue } from '@fettle/core';
import type { Body, Kind } from '../ledger/bodies.ts';
import { bodyOf, type Entry, isKnown } from '../ledger/entry.ts';
import { chainFaults, merged } from '../ledger/ledger.ts';
import { type Characteristic, characteristicSchema, type SpecSheet } from '../sheet/sheet.ts';
import type { Book, CoverOnRecord, Standing, Written } from './book.ts';
import { type Conflict, decided } from './decision.ts';
import { foldedParts } from './parts.ts';
import { strikesOf } from './strikes.ts';

/** Entries of one kind that stand, in folding order, and a way to settle single answers among them. */
class Standings {
  private readonly written = new Map<Kind, Written<Kind>[]>();
  readonly conflicts: Conflict[] = [];

  add(entry: Entry & { kind: Kind }): void {
    const list = this.written.get(entry.kind) ?? [];
    list.push({ entry, body: bodyOf(entry) });
    this.written.set(entry.kind, list);
  }

  all<K extends Kind>(kind: K): Written<K>[] {
    return (this.written.get(kind) ?? []) as Written<K>[];
  }

  /** The standing answer for each key of a single-answer kind. */
  byKey<K extends Kind>(kind: K, key: (body: Body<K>) => string): Map<string, Written<K>> {
    const groups = new Map<string, Written<K>[]>();
    for (const written of this.all(kind)) {
      const name = key(written.body);
      groups.set(name, [...(groups.get(name) ?? []), written]);
    }
    const answers = new Map<string, Written<K>>();
    for (const [name, group] of groups) {
      const { winner, conflict } = decided(
        `${kind} of ${name}`,
        group.map((written) => written.entry),
      );
      if (conflict) this.conflicts.push(conflict);
      const standing = group.find((written) => written.entry === winner);
      if (standing) answers.set(name, standing);
    }
    return answers;
  }
}

function amendedCharacteristics(
  sheet: SpecSheet | undefined,
  amendments: ReadonlyMap<string, Written<'characteristic-amended'>>,
): { characteristics: Map<string, Characteristic>; problems: Issue[] } {
  const characteristics = new Map((sheet?.characteristics ?? []).map((c) => [c.id, c]));
  const problems: Issue[] = [];
  for (const [id, amendment] of amendments) {
    const changed = characteristicSchema.safeParse({
      ...characteristics.get(id),
      ...amendment.body.change,
      id,
    });
    if (changed.success) characteristics.set(id, changed.data);
    else
      problems.push({
        code: 'amendment/does-not-fit',
        at: amendment.entry.id,
        got: JSON.stringify(amendment.body.change).slice(0, 200),
        wanted: 'fields of a characteristic as in the spec sheet',
        message: `The amendment of ${id} leaves no valid characteristic (${changed.error.issues[0]?.message}); it is not applied. Strike it and amend again.`,
      });
  }
  return { characteristics, problems };
}

/**
 * The book of one job: a pure fold over its ledger, the same under any order of arrival.
 *
 * @param entries  of one job, in any order; the same id twice counts once
 * @param sheets   the spec sheets at hand, by hash; one that is not here is shown as missing
 */
export function foldedBook(entries: readonly Entry[], sheets: ReadonlyMap<string, SpecSheet>): Book {
  const ledger = merged(entries, []);
  const { struck, idle } = strikesOf(ledger);
  const standings = new Standings();
  const unknown: Entry[] = [];
  for (const entry of ledger) {
    if (!isKnown(entry)) unknown.push(entry);
    else if (!struck.has(entry.id)) standings.add(entry);
  }

  const adopted = standings.byKey('spec-adopted', () => 'the job').get('the job');
  const sheetHash = adopted?.body.sheet;
  const sheet = sheetHash === undefined ? undefined : sheets.get(sheetHash);
  const mentioned = new Set(standings.all('spec-adopted').map((written) => written.body.sheet));
  const amended = standings.byKey('characteristic-amended', (body) => body.characteristic);
  const { characteristics, problems } = amendedCharacteristics(sheet, amended);
  const instruments = standings.byKey('instrument-declared', (body) => body.instrument);
  const reworked = standings.byKey('part-reworked', (body) => body.part);
  const {
    parts,
    positions,
    conflicts: fittingConflicts,
  } = foldedParts(
    standings.all('part-entered'),
    standings.all('part-reworked'),
    reworked,
    standings.all('part-fitted'),
  );

  const states = new Set([...parts.values()].flatMap((part) => part.states.map((state) => state.id)));
  const standingOf = (
    written: Written<'reading'> | Written<'seen'>,
    instrument: string | undefined,
  ): Standing => {
    if (struck.has(written.entry.id)) return 'struck';
    const { body } = written;
    const rests = [body.state, ...('mates' in body ? (body.mates ?? []) : [])].filter(
      (id) => id !== undefined,
    );
    if (rests.some((id) => struck.has(id))) return 'rests-on-struck';
    if (rests.some((id) => !states.has(id))) return 'state-unknown';
    if (!characteristics.has(body.characteristic)) return 'characteristic-unknown';
    if (instrument !== undefined && !instruments.has(instrument)) return 'instrument-unknown';
    return 'counts';
  };
  // Struck readings stay on record: a paper book shows the line and the stroke through it.
  const onRecord = <K extends 'reading' | 'seen'>(kind: K): Written<K>[] =>
    ledger
      .filter((entry): entry is Entry & { kind: K } => entry.kind === kind && isKnown(entry))
      .map((entry) => ({ entry, body: bodyOf(entry) }));

  const receipts = standings.all('receipt');
  const { forks, broken } = chainFaults(ledger);
  return {
    job: ledger[0]?.job ?? '',
    ...(standings.all('job-opened')[0] && { opened: standings.all('job-opened')[0]! }),
    entries: ledger,
    struck,
    ...(sheetHash !== undefined && { sheetHash }),
    ...(sheet && { sheet }),
    missingSheets: [...mentioned].filter((hash) => !sheets.has(hash)),
    characteristics,
    amended,
    instruments,
    instrumentChecks: standings.all('instrument-checked'),
    parts,
    positions,
    readings: onRecord('reading').map((w) => ({ ...w, standing: standingOf(w, w.body.instrument) })),
    sights: onRecord('seen').map((w) => ({ ...w, standing: standingOf(w, undefined) })),
    gaugeReadings: standings.all('gauge-reading'),
    torquePasses: standings.all('torque-pass'),
    dispositions: standings.byKey('disposition', (body) => body.part),
    orders: standings.all('order').map((order) => ({
      ...order,
      receipts: receipts.filter((r) => r.body.order === order.entry.id).map((r) => r.entry.id),
    })),
    covers: foldedCovers(standings),
    notes: standings.all('note'),
    photos: standings.all('photo'),
    conflicts: [...standings.conflicts, ...fittingConflicts],
    idleStrikes: idle,
    forks,
    broken,
    unknown,
    problems,
  };
}

function foldedCovers(standings: Standings): Map<string, CoverOnRecord> {
  const covers = new Map<string, CoverOnRecord>();
  const moves = [...standings.all('cover-closed'), ...standings.all('cover-opened')].sort(
    (a, b) => a.entry.tick - b.entry.tick || (a.entry.id < b.entry.id ? -1 : 1),
  );
  for (const last of moves)
    covers.set(last.body.cover, { closed: last.entry.kind === 'cover-closed', last, holdsPassed: [] });
  for (const passed of standings.all('hold-passed')) {
    const cover = covers.get(passed.body.cover) ?? { closed: false, holdsPassed: [] };
    covers.set(passed.body.cover, { ...cover, holdsPassed: [...cover.holdsPassed, passed] });
  }
  return covers;
}
