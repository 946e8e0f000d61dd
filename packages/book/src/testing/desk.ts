import type { Body, Kind } from '../ledger/bodies.ts';
import { type Entry, newEntryId } from '../ledger/entry.ts';
import { merged } from '../ledger/ledger.ts';
import { nextEntry } from '../ledger/writing.ts';

/** Invented ledgers for the tests of this package and of those that rest on it. */

const JOB = '01920000-0000-7000-8000-000000000001';

/** A UUID that differs by device and page and comes out the same on every run. */
function idOf(device: string, n: number, salt: number): string {
  const random = new Uint8Array(10);
  for (const [i, character] of [...device].entries())
    random[i % 6] = (random[i % 6]! * 31 + character.codePointAt(0)!) % 256;
  new DataView(random.buffer).setUint16(6, n);
  new DataView(random.buffer).setUint16(8, salt);
  return newEntryId(1_700_000_000_000, random);
}

/** One device with the pile of entries it has folded; it writes after all of them. */
export class Desk {
  readonly device: string;
  entries: Entry[] = [];
  private salt = 0;
  /** What its clock says. */
  at = '2026-03-01T10:00:00Z';

  constructor(device: string, entries: readonly Entry[] = []) {
    this.device = device;
    this.entries = [...entries];
  }

  write<K extends Kind>(kind: K, body: Body<K>): Entry {
    const n = 1 + Math.max(0, ...this.entries.filter((e) => e.device === this.device).map((e) => e.n));
    const pen = {
      job: JOB,
      device: this.device,
      who: this.device,
      at: this.at,
      id: idOf(this.device, n, this.salt),
    };
    const entry = nextEntry(this.entries, pen, kind, body);
    this.entries.push(entry);
    return entry;
  }

  strike(target: Entry | string, why = 'a slip'): Entry {
    return this.write('strike', { entry: typeof target === 'string' ? target : target.id, why });
  }

  /** Folds what another desk has. */
  sees(...others: readonly Desk[]): this {
    for (const other of others) this.entries = merged(this.entries, other.entries);
    return this;
  }

  /** Another device that has folded all this one has. */
  beside(device: string): Desk {
    return new Desk(device, this.entries);
  }

  /** A copy of the data directory that goes on under the same name: its pages fork from here. */
  copied(): Desk {
    const copy = new Desk(this.device, this.entries);
    copy.salt = this.salt + 1;
    return copy;
  }
}
