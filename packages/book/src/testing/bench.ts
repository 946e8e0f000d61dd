import { CATALOGUE } from '@fettle/core';
import { type Assessed, type Assessment, assessment } from '../assess/assessment.ts';
import type { Gate } from '../assess/gate.ts';
import type { Selection } from '../assess/selection.ts';
import { asFittedNow } from '../assess/selection.ts';
import { admittedReading, type ReadingSaid } from '../entering/reading.ts';
import type { Book } from '../fold/book.ts';
import { foldedBook } from '../fold/fold.ts';
import type { Body } from '../ledger/bodies.ts';
import type { Entry } from '../ledger/entry.ts';
import { placeFrom, placeText } from '../sheet/places.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import { Desk } from './desk.ts';
import { type TinySheet, tinySheet } from './tiny-sheet.ts';

type Uncertainty = Body<'instrument-declared'>['uncertainty'];

/** U of the bench's instruments, invented; half of each variance is common to all readings of one instrument. */
const OWNED: Readonly<Record<string, { type: string; U: string; leaves?: string[] }>> = {
  mic: { type: 'micrometer', U: '0.0002 in' },
  tele: { type: 'telescoping gauge', U: '0.0007 in' },
  dbg: { type: 'dial bore gauge', U: '0.0003 in' },
  depth: { type: 'depth micrometer', U: '0.0004 in' },
  leaves: {
    type: 'feeler leaves',
    U: '0.0005 in',
    leaves: [
      '0.0015 in',
      '0.002 in',
      '0.0025 in',
      '0.003 in',
      '0.004 in',
      '0.005 in',
      '0.006 in',
      '0.007 in',
    ],
  },
  tester: { type: 'spring tester', U: '3 %' },
  thermo: { type: 'thermometer', U: '1 degC' },
};

type Reading = string | { goes?: string; stops?: string };
type More = Partial<Omit<ReadingSaid, 'characteristic' | 'place' | 'value' | 'goes' | 'stops'>> & {
  at?: string;
};

/** A job on one desk, with its sheet adopted and its instruments declared. */
export class Bench {
  readonly desk: Desk;
  readonly tiny: TinySheet;

  constructor(of: Readonly<Record<string, unknown>>, device = 'bench') {
    this.tiny = tinySheet(of);
    this.desk = new Desk(device);
    this.desk.write('job-opened', { title: 'A tiny job' });
    this.desk.write('spec-adopted', { sheet: this.tiny.hash, title: this.tiny.sheet.title });
    for (const [id, { type, U, leaves }] of Object.entries(OWNED))
      this.declare(id, type, { expanded: U, coverage: 2, common_share: 0.5 }, leaves);
  }

  declare(instrument: string, type: string, uncertainty: Uncertainty, leaves?: string[]): Entry {
    return this.desk.write('instrument-declared', {
      instrument,
      name: instrument,
      type,
      uncertainty,
      trust: 'stated',
      ...(leaves && { leaves }),
    });
  }

  /** Enters a part and fits it where it belongs. */
  part(id: string, position: string, condition: 'used' | 'new' | 'machined' = 'used', size?: string): Entry {
    const entry = this.desk.write('part-entered', {
      part: id,
      name: id,
      condition,
      ...(size !== undefined && { size }),
    });
    this.desk.write('part-fitted', { position, part: id });
    return entry;
  }

  /** What becomes of a reading said so. */
  said(characteristic: string, reading: Reading, { at = '', ...more }: More = {}) {
    const { sheet } = this.tiny;
    const placed = sheet.characteristics.find(({ id }) => id === characteristic);
    const place = placed ? placeFrom(sheet, placed, at) : undefined;
    if (place && !place.ok) throw new Error(place.issues[0]!.message);
    return admittedReading(this.book(), {
      characteristic,
      place: place?.value ?? {},
      ...(typeof reading === 'string' ? { value: reading } : reading),
      ...more,
    });
  }

  /** Reads through the door a user has, standing by whatever the program asks about. */
  read(characteristic: string, reading: Reading, more: More = {}): Entry {
    const body = this.said(characteristic, reading, { confirmed: true, ...more });
    if (!body.ok) throw new Error(body.issues.map(({ message }) => message).join('\n'));
    return this.desk.write('reading', body.value);
  }

  book(): Book {
    return foldedBook(this.desk.entries, this.tiny.sheets, readSheet);
  }

  assessed(selection?: (book: Book) => Selection, now?: number): Assessment {
    const book = this.book();
    return assessment(book, (selection ?? asFittedNow)(book), CATALOGUE, now);
  }

  judgement(characteristic: string, at = '', selection?: (book: Book) => Selection): Assessed {
    const found = this.assessed(selection).judgements.find(
      (judgement) => judgement.characteristic.id === characteristic && placeText(judgement.place) === at,
    );
    if (!found) throw new Error(`nothing is judged as ${characteristic} at "${at}"`);
    return found;
  }

  gate(cover: string, now?: number): Gate {
    const found = this.assessed(undefined, now).gates.find((gate) => gate.cover.id === cover);
    if (!found) throw new Error(`no cover ${cover}`);
    return found;
  }
}
