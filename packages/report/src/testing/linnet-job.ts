import { readFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import {
  type Body,
  type Book,
  contentHash,
  type Entry,
  foldedBook,
  type Kind,
  merged,
  newEntryId,
  nextEntry,
  readSheet,
  type SpecSheet,
} from '@fettle/book';

/** An invented job on the demo engine's sheet, with one of everything that a ledger can hold. */

const JOB = '01920000-0000-7000-8000-00000000b00c';

export function linnetSheet(): SpecSheet {
  const url = new URL('../../../cli/demo/linnet/spec-sheet.json', import.meta.url);
  const read = readSheet(JSON.parse(readFileSync(url, 'utf8')));
  if (!read.ok) throw new Error(read.issues[0]!.message);
  return read.value;
}

/** One writer. Everything a clock and chance would give is settled by device and page. */
export class Writer {
  readonly device: string;
  readonly who: string;
  entries: Entry[];

  constructor(device: string, who: string, entries: readonly Entry[] = []) {
    this.device = device;
    this.who = who;
    this.entries = [...entries];
  }

  write<K extends Kind>(kind: K, body: Body<K>): Entry {
    const n = this.entries.filter(({ device }) => device === this.device).length + 1;
    const random = new Uint8Array(10);
    random[0] = this.device.charCodeAt(0);
    random[9] = n % 256;
    random[8] = n >> 8;
    const minute = 1_700_000_000_000 + n * 60_000;
    const pen = {
      job: JOB,
      device: this.device,
      who: this.who,
      at: new Date(minute).toISOString(),
      id: newEntryId(minute, random),
    };
    const entry = nextEntry(this.entries, pen, kind, body);
    this.entries.push(entry);
    return entry;
  }

  instrument(instrument: string, name: string, type: string, U: string): Entry {
    return this.write('instrument-declared', {
      instrument,
      name,
      type,
      uncertainty: { expanded: U, coverage: 2, common_share: 0.5 },
      trust: 'stated',
    });
  }
}

export function folded(entries: readonly Entry[], sheet: SpecSheet = linnetSheet()): Book {
  return foldedBook(entries, new Map([[contentHash(sheet), sheet]]), readSheet);
}

/** A PNG chunk: length, name, data, CRC-32. */
function chunk(name: string, data: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  let crc = 0xffffffff;
  for (const byte of named) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE((crc ^ 0xffffffff) >>> 0);
  return Buffer.concat([length, named, check]);
}

/** A photograph of eight by eight grey dots, as PNG. */
export const PHOTO = Buffer.concat([
  Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
  chunk('IHDR', Buffer.from([0, 0, 0, 8, 0, 0, 0, 8, 8, 0, 0, 0, 0])),
  chunk('IDAT', deflateSync(Buffer.alloc(9 * 8, 0x80).map((byte, i) => (i % 9 === 0 ? 0 : byte)))),
  chunk('IEND', Buffer.alloc(0)),
]);

/** A job opened on the sheet, with nothing measured. */
export function begun(words: { title: string; owner?: string; story?: string }): Writer {
  const sheet = linnetSheet();
  const desk = new Writer('desk', 'the rebuilder');
  desk.write('job-opened', words);
  desk.write('spec-adopted', { sheet: contentHash(sheet), title: sheet.title });
  return desk;
}

/** Readings taken, one struck, a hold passed, two devices in conflict, an entry from a later program. */
export function lived(): { desk: Writer; photo: string } {
  const desk = begun({
    title: 'Linnet on the bench',
    owner: 'the library service',
    story: 'The oil light flickers when hot and idling.',
  });
  desk.instrument('mic', 'Outside micrometers', 'micrometer', '0.0002 in');
  desk.instrument('tele', 'Telescoping gauge', 'telescoping gauge', '0.0007 in');
  desk.instrument('leaves', 'Feeler leaves', 'feeler leaves', '0.0005 in');
  desk.instrument('gauge', 'Oil gauge', 'oil pressure gauge', '3 psi');
  desk.write('instrument-checked', {
    instrument: 'mic',
    against: '1 in gauge block',
    read: '1.0000 in',
    good: true,
  });
  const block = desk.write('part-entered', { part: 'block', name: 'Block', condition: 'used' });
  desk.write('part-fitted', { position: 'block', part: 'block' });
  const crank = desk.write('part-entered', { part: 'crank', name: 'Crankshaft', condition: 'used' });
  desk.write('part-fitted', { position: 'crank', part: 'crank' });
  for (const cylinder of ['1', '2', '3', '4'])
    for (const height of ['top', 'mid', 'bottom'])
      for (const axis of ['thrust', 'axial'])
        desk.write('reading', {
          characteristic: 'bore.diameter',
          state: block.id,
          place: { cylinder, height, axis },
          instrument: 'tele',
          value: `3.50${cylinder}${height.length} in`,
          temperature: { part: '6 degC', instrument: '20 degC' },
        });
  const slip = desk.write('reading', {
    characteristic: 'crank.main-journal',
    state: crank.id,
    place: { main: '2', end: 'front', turn: '90' },
    instrument: 'mic',
    value: '2.4585 in',
    asked: { code: 'reading/implausible', question: 'Is it 2.4585 in?', first_said: '2.4585' },
  });
  for (const [turn, value] of [
    ['0', '2.4986 in'],
    ['90', '2.4985 in'],
  ])
    for (const end of ['front', 'rear'])
      desk.write('reading', {
        characteristic: 'crank.main-journal',
        state: crank.id,
        place: { main: '2', end, turn: turn! },
        instrument: 'mic',
        value: value!,
      });
  desk.write('strike', { entry: slip.id, why: 'two figures changed places' });
  desk.write('seen', { characteristic: 'pan.rail', found: '7 of 18 holes dimpled', as_wanted: false });
  desk.write('gauge-reading', {
    pressure: '7.5 psi',
    speed: '600 rpm',
    temperature: '93 degC',
    instrument: 'gauge',
    when: 'as-found',
  });
  desk.write('torque-pass', {
    fastener: 'rod',
    place: { rod: '3' },
    torque: '41 N.m',
    pass: 1,
    of: 2,
    note: 'wrench left at the wrong unit',
  });
  desk.write('disposition', { part: 'crank', decision: 'machine', size: '.010 under', why: 'main 3 is out' });
  const order = desk.write('order', { item: 'Main shells, .010 under', supplier: 'a shop', price: 92 });
  desk.write('receipt', { order: order.id });
  desk.write('hold-passed', {
    cover: 'pan',
    why: 'to move the van',
    gate: {
      state: 'held',
      reasons: [{ code: 'verdict/out', about: 'pan.rail', message: 'Pan rail: out' }],
      entries: [],
    },
  });
  desk.write('note', { text: 'Pressures by a checked gauge.', about: 'oil' });
  const photo = 'ab'.repeat(32);
  desk.write('photo', { sha256: photo, media: 'image/png', caption: 'The worn pump cover' });
  const phone = new Writer('phone', 'the helper', desk.entries);
  phone.write('disposition', { part: 'block', decision: 'reuse', why: 'it will do' });
  desk.write('disposition', { part: 'block', decision: 'machine', why: 'bore 3 is worn' });
  desk.entries = merged(desk.entries, phone.entries);
  const note = desk.write('note', { text: 'from a later program' });
  note.kind = 'sounding';
  return { desk, photo };
}
