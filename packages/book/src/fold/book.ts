import type { Issue } from '@fettle/core';
import type { Body, Kind } from '../ledger/bodies.ts';
import type { Entry } from '../ledger/entry.ts';
import type { BrokenLink, Fork, IdReused } from '../ledger/ledger.ts';
import type { Characteristic, SpecSheet } from '../sheet/sheet.ts';
import type { Conflict } from './decision.ts';
import type { IdleStrike } from './strikes.ts';
import type { Undoing } from './undoing.ts';

/** An entry of a kind the program knows, with its body read. */
export interface Written<K extends Kind> {
  readonly entry: Entry;
  readonly body: Body<K>;
}

/** A stretch of a part's life: as it came, or after a rework. Named by the entry that began it. */
export interface PartState {
  readonly id: string;
  readonly condition: 'used' | 'new' | 'machined';
  readonly size?: string;
  readonly what: string;
}

/** One physical thing. */
export interface Part {
  readonly id: string;
  readonly name: string;
  /** In the order of the ledger; the first is how it came. */
  readonly states: readonly PartState[];
  readonly current: PartState;
}

export interface Fitted {
  readonly part: string;
  readonly state: string;
  readonly way?: string;
  readonly entry: string;
}

export interface Position {
  readonly id: string;
  readonly now?: Fitted;
  /** Its first part in its first state. */
  readonly asFound?: Fitted;
}

/** Why a reading is kept but not judged. */
export type Standing =
  | 'counts'
  | 'struck'
  | 'rests-on-struck'
  | 'state-unknown'
  | 'characteristic-unknown'
  | 'instrument-unknown'
  /** Read with an instrument whose check failed; kept and shown, and no verdict rests on it. */
  | 'to-be-taken-again';

export interface ReadingOnRecord extends Written<'reading'> {
  readonly standing: Standing;
  /** What its owner found must be added to it after a failed check. */
  readonly correction?: Body<'readings-corrected'>;
}

export interface SightOnRecord extends Written<'seen'> {
  readonly standing: Standing;
}

/** Whether what was taken with an instrument still counts, or a failed check of it asks for it again. */
export type TakenStanding = Extract<Standing, 'counts' | 'to-be-taken-again'>;

export interface TorqueOnRecord extends Written<'torque-pass'> {
  readonly standing: TakenStanding;
}

export interface GaugeOnRecord extends Written<'gauge-reading'> {
  readonly standing: TakenStanding;
}

export type CoverMove = Written<'cover-closed'> | Written<'cover-opened'>;

export interface CoverOnRecord {
  readonly closed: boolean;
  /** The closing or opening that stands. */
  readonly last?: CoverMove;
  /** The last opening, closed again since or not. */
  readonly lastOpened?: Written<'cover-opened'>;
  readonly holdsPassed: readonly Written<'hold-passed'>[];
}

/** What the ledger says, folded. It holds no judgement: that is the assessment's. */
export interface Book {
  readonly job: string;
  readonly opened?: Written<'job-opened'>;
  readonly entries: readonly Entry[];
  readonly struck: ReadonlySet<string>;
  /** Hash of the sheet adopted, whether it is here or not. */
  readonly sheetHash?: string;
  readonly sheet?: SpecSheet;
  readonly missingSheets: readonly string[];
  /** The sheet's characteristics as amended, in the sheet's order. */
  readonly characteristics: ReadonlyMap<string, Characteristic>;
  readonly amended: ReadonlyMap<string, Written<'characteristic-amended'>>;
  readonly instruments: ReadonlyMap<string, Written<'instrument-declared'>>;
  readonly instrumentChecks: readonly Written<'instrument-checked'>[];
  /** The failed check by the entry it puts in doubt: readings, gauge readings, torques. */
  readonly reopened: ReadonlyMap<string, string>;
  /** Repeated readings by which instruments were studied. */
  readonly studies: readonly Written<'repeat-study'>[];
  readonly parts: ReadonlyMap<string, Part>;
  readonly positions: ReadonlyMap<string, Position>;
  /** What is known of a part's home, partners and way round, by part. */
  readonly marks: ReadonlyMap<string, Written<'part-marked'>>;
  /** By the state that was cleaned. */
  readonly cleanings: ReadonlyMap<string, Written<'part-cleaned'>>;
  /** Everything put into an opening or taken out of one, in the order of the ledger. */
  readonly openings: readonly (Written<'opening-blocked'> | Written<'opening-cleared'>)[];
  /** The last word on each joint and place. */
  readonly joints: ReadonlyMap<string, Written<'joint-state'>>;
  readonly readings: readonly ReadingOnRecord[];
  readonly sights: readonly SightOnRecord[];
  readonly gaugeReadings: readonly GaugeOnRecord[];
  readonly torquePasses: readonly TorqueOnRecord[];
  /** Who lets which passes stand, and why. */
  readonly torqueDecisions: readonly Written<'torque-decided'>[];
  /** What may have undone a tightened joint, in the order of the ledger. */
  readonly undoings: readonly Undoing[];
  readonly dispositions: ReadonlyMap<string, Written<'disposition'>>;
  readonly orders: readonly (Written<'order'> & { readonly receipts: readonly string[] })[];
  /** Repairs on offer by their own ids, the later word on each. */
  readonly offers: ReadonlyMap<string, Written<'repair-offered'>>;
  /** What can be bought, by its own id. */
  readonly supplies: ReadonlyMap<string, Written<'supply-offered'>>;
  /** What is wanted beside the parts decided on, by need. */
  readonly wants: ReadonlyMap<string, Written<'supply-wanted'>>;
  /** What an hour or a delivery costs, by the party’s name. */
  readonly terms: ReadonlyMap<string, Written<'terms-given'>>;
  readonly tasks: ReadonlyMap<string, Written<'task-planned'>>;
  readonly covers: ReadonlyMap<string, CoverOnRecord>;
  /** Every closing and opening, in the order of the ledger. */
  readonly coverMoves: readonly CoverMove[];
  readonly notes: readonly Written<'note'>[];
  readonly photos: readonly Written<'photo'>[];
  readonly conflicts: readonly Conflict[];
  readonly idleStrikes: readonly IdleStrike[];
  readonly forks: readonly Fork[];
  readonly broken: readonly BrokenLink[];
  /** Different entries under one id. */
  readonly reused: readonly IdReused[];
  /** Kinds or versions this program does not know: kept, shown, never dropped. */
  readonly unknown: readonly Entry[];
  /** What the ledger says that cannot be made sense of. */
  readonly problems: readonly Issue[];
}
