import type { Body, Kind } from '../ledger/bodies.ts';
import { bodyOf, type Entry, isKnown } from '../ledger/entry.ts';
import { chainFaults, inOrder, merged, parted } from '../ledger/ledger.ts';
import { placeText } from '../sheet/places.ts';
import type { SpecSheet } from '../sheet/sheet.ts';
import { amendedCharacteristics, type SheetReader } from './amendments.ts';
import type { Book, CoverMove, CoverOnRecord, Standing, TakenStanding, Written } from './book.ts';
import { type Conflict, decided } from './decision.ts';
import { foldedParts } from './parts.ts';
import { twiceEntered, unreadableReadings } from './problems.ts';
import { reopenedBy } from './reopened.ts';
import { strikesOf } from './strikes.ts';
import { undoingsOf } from './undoings.ts';

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

/**
 * The book of one job: a pure fold over its ledger, the same under any order of arrival.
 *
 * @param entries  of one job, in any order; the same id twice counts once
 * @param sheets     the spec sheets at hand, by hash; one that is not here is shown as missing
 * @param readSheet  holds an amended sheet to the checks of a sheet
 */
export function foldedBook(
  entries: readonly Entry[],
  sheets: ReadonlyMap<string, SpecSheet>,
  readSheet: SheetReader,
): Book {
  const pile = merged(entries, []);
  const { ledger, reused } = parted(pile);
  const { struck, idle } = strikesOf(ledger);
  const standings = new Standings();
  const unknown: Entry[] = [];
  for (const entry of ledger) {
    if (!isKnown(entry)) unknown.push(entry);
    // What was built on a struck study goes with it: what was declared before stands again.
    else if (!struck.has(entry.id) && !struck.has(String(entry.body.study))) standings.add(entry);
  }

  const adopted = standings.byKey('spec-adopted', () => 'the job').get('the job');
  const sheetHash = adopted?.body.sheet;
  const sheet = sheetHash === undefined ? undefined : sheets.get(sheetHash);
  const mentioned = new Set(standings.all('spec-adopted').map((written) => written.body.sheet));
  const amended = standings.byKey('characteristic-amended', (body) => body.characteristic);
  const { characteristics, problems } = amendedCharacteristics(sheet, amended, readSheet);
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

  problems.push(...twiceEntered(standings.all('part-entered')));
  const kindOf = new Map(ledger.map((entry) => [entry.id, entry.kind]));
  // A rework of a part whose entering is struck is not struck itself, but rests on what is.
  const began = (id: string): boolean => ['part-entered', 'part-reworked'].includes(kindOf.get(id) ?? '');
  const states = new Set([...parts.values()].flatMap((part) => part.states.map((state) => state.id)));
  const reopened = reopenedBy(
    ledger.filter(({ id }) => !struck.has(id)),
    instruments,
  );
  const corrections = standings.byKey('readings-corrected', (body) => body.check);
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
    const lost = rests.filter((id) => !states.has(id));
    if (lost.length > 0) return lost.every(began) ? 'rests-on-struck' : 'state-unknown';
    if (!characteristics.has(body.characteristic)) return 'characteristic-unknown';
    if (instrument !== undefined && !instruments.has(instrument)) return 'instrument-unknown';
    const check = reopened.get(written.entry.id);
    return check === undefined || corrections.has(check) ? 'counts' : 'to-be-taken-again';
  };
  // Struck readings stay on record: a paper book shows the line and the stroke through it.
  const onRecord = <K extends 'reading' | 'seen'>(kind: K): Written<K>[] =>
    ledger
      .filter((entry): entry is Entry & { kind: K } => entry.kind === kind && isKnown(entry))
      .map((entry) => ({ entry, body: bodyOf(entry) }));

  const readings = onRecord('reading').map((w) => {
    const correction = corrections.get(reopened.get(w.entry.id) ?? '')?.body;
    return { ...w, standing: standingOf(w, w.body.instrument), ...(correction && { correction }) };
  });
  // A correction is of what was read with a measuring instrument; a torque or a pressure is taken again.
  const taken = <K extends 'gauge-reading' | 'torque-pass'>(
    kind: K,
  ): (Written<K> & { standing: TakenStanding })[] =>
    standings.all(kind).map((written) => ({
      ...written,
      standing: reopened.has(written.entry.id) ? 'to-be-taken-again' : 'counts',
    }));
  problems.push(...unreadableReadings(readings, characteristics, instruments));
  const coverMoves = [...standings.all('cover-closed'), ...standings.all('cover-opened')].sort((a, b) =>
    inOrder(a.entry, b.entry),
  );
  const receipts = standings.all('receipt');
  const { forks, broken } = chainFaults(pile);
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
    reopened,
    studies: standings.all('repeat-study'),
    parts,
    positions,
    marks: standings.byKey('part-marked', (body) => body.part),
    cleanings: standings.byKey('part-cleaned', (body) => body.state),
    openings: [...standings.all('opening-blocked'), ...standings.all('opening-cleared')].sort((a, b) =>
      inOrder(a.entry, b.entry),
    ),
    joints: standings.byKey('joint-state', (body) => `${body.joint}@${placeText(body.place ?? {})}`),
    readings,
    sights: onRecord('seen').map((w) => ({ ...w, standing: standingOf(w, undefined) })),
    gaugeReadings: taken('gauge-reading'),
    torquePasses: taken('torque-pass'),
    torqueDecisions: standings.all('torque-decided'),
    undoings: undoingsOf({
      joints: standings.all('joint-state'),
      openings: standings.all('cover-opened'),
      fittings: standings.all('part-fitted'),
      reworks: standings.all('part-reworked'),
    }),
    dispositions: standings.byKey('disposition', (body) => body.part),
    orders: standings.all('order').map((order) => ({
      ...order,
      receipts: receipts.filter((r) => r.body.order === order.entry.id).map((r) => r.entry.id),
    })),
    offers: standings.byKey('repair-offered', (body) => body.offer),
    supplies: standings.byKey('supply-offered', (body) => body.supply),
    wants: standings.byKey('supply-wanted', (body) => body.need),
    terms: standings.byKey('terms-given', (body) => body.party),
    tasks: standings.byKey('task-planned', (body) => body.task),
    covers: foldedCovers(standings, coverMoves),
    coverMoves,
    notes: standings.all('note'),
    photos: standings.all('photo'),
    conflicts: [...standings.conflicts, ...fittingConflicts],
    idleStrikes: idle,
    forks,
    broken,
    reused,
    unknown,
    problems,
  };
}

function foldedCovers(standings: Standings, moves: readonly CoverMove[]): Map<string, CoverOnRecord> {
  const covers = new Map<string, CoverOnRecord>();
  for (const last of moves) {
    const opened = 'gate' in last.body ? covers.get(last.body.cover)?.lastOpened : last;
    covers.set(last.body.cover, {
      closed: last.entry.kind === 'cover-closed',
      last,
      ...(opened && { lastOpened: opened as Written<'cover-opened'> }),
      holdsPassed: [],
    });
  }
  for (const passed of standings.all('hold-passed')) {
    const cover = covers.get(passed.body.cover) ?? { closed: false, holdsPassed: [] };
    covers.set(passed.body.cover, { ...cover, holdsPassed: [...cover.holdsPassed, passed] });
  }
  return covers;
}
