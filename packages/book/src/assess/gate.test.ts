import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { noticesOf } from '../words/notices.ts';
import { gateAsSeen } from './gate.ts';

const source = { document: 'made', trust: 'assumed' };
const SHEET = {
  axes: { bolt: ['1', '2'] },
  positions: [{ id: 'pump', name: 'Pump' }],
  characteristics: [
    inches('pump.gap', { limits: { wear: { upper: '0.005 in' } } }),
    inches('pump.note', { optional: true }),
    { id: 'pump.rail', name: 'Rail', kind: 'seen', wanted: 'flat', source },
    inches('other.gap', { limits: { wear: { upper: '0.005 in' } } }),
  ],
  fasteners: [
    {
      id: 'bolt',
      name: 'Cap bolts',
      thread: '1/2-13 UNC',
      grade: 'SAE 5',
      condition: 'dry',
      torque: { lower: '80 lbf.ft', upper: '85 lbf.ft' },
      places: ['bolt'],
      passes: 2,
      source,
    },
  ],
  covers: [
    {
      id: 'lid',
      name: 'Lid',
      order: 2,
      reopen_hours: 1,
      hides: { characteristics: ['pump.*'], fasteners: ['bolt'] },
    },
    { id: 'first', name: 'First', order: 1, reopen_hours: 1, hides: { characteristics: ['other.gap'] } },
  ],
};
const torque = (bench: Bench, said: string, place: Record<string, string>, pass = 2) =>
  bench.desk.write('torque-pass', { fastener: 'bolt', place, torque: said, pass, of: 2 });

/** Everything the lid hides is proven. */
function proven(): Bench {
  const bench = new Bench(SHEET);
  bench.read('pump.gap', '0.0030 in', { instrument: 'mic' });
  bench.desk.write('seen', { characteristic: 'pump.rail', found: 'flat', as_wanted: true });
  torque(bench, '82 lbf.ft', {});
  return bench;
}
const reasons = (bench: Bench, cover = 'lid') =>
  bench.gate(cover).reasons.map(({ code, about }) => `${code} ${about}`);

describe('a gate', () => {
  it('is held by everything not yet read, seen or tightened, and by nothing another cover hides', () => {
    const bench = new Bench(SHEET);
    expect(bench.gate('lid').state).toBe('held');
    expect(reasons(bench)).toEqual([
      'reading/missing pump.gap',
      'reading/missing pump.rail',
      'torque/not-logged bolt',
    ]);
    expect(bench.assessed().gates.map(({ cover }) => cover.id)).toEqual(['first', 'lid']);
  });

  it('is open when all it hides is proven, and names the entries that rest on', () => {
    const bench = proven();
    const gate = bench.gate('lid');
    expect(gate).toMatchObject({ state: 'open', reasons: [], closed: false, sinceThen: [] });
    expect(gate.entries).toHaveLength(3);
    expect(bench.gate('first').state).toBe('held');
  });

  it('is held by what is out and by what cannot be told', () => {
    const bench = proven();
    // .0030 and .0067 with one micrometer: their mean would be in, but they cannot both be right.
    bench.read('pump.gap', '0.0067 in', { instrument: 'mic' });
    expect(reasons(bench)).toEqual(['verdict/cannot-tell pump.gap']);
    const out = proven();
    for (const entry of out.book().readings) out.desk.strike(entry.entry);
    out.read('pump.gap', '0.0067 in', { instrument: 'mic' });
    out.desk.write('seen', { characteristic: 'pump.rail', found: 'dimpled', as_wanted: false });
    expect(reasons(out)).toEqual(['verdict/out pump.gap', 'verdict/out pump.rail']);
  });

  it('counts a torque at every place, at its last pass and within the sheet’s figures only', () => {
    const bench = proven();
    for (const { entry } of bench.book().torquePasses) bench.desk.strike(entry);
    expect(reasons(bench)).toEqual(['torque/not-logged bolt']);
    torque(bench, '82 lbf.ft', { bolt: '1' });
    torque(bench, '40 lbf.ft', { bolt: '2' });
    torque(bench, '95 lbf.ft', { bolt: '2' });
    torque(bench, '82 lbf.ft', { bolt: '2' }, 1);
    expect(bench.assessed().torques[0]!.unlogged).toEqual([{ bolt: '2' }]);
    torque(bench, '110 N.m', { bolt: '2' });
    // 110 N·m is 81.1 lbf·ft.
    expect(bench.gate('lid').state).toBe('open');
  });

  it('is held by a torque on the sheet that is past proof load, logged or not', () => {
    const [bolt] = SHEET.fasteners;
    const bench = new Bench({
      ...SHEET,
      characteristics: [],
      covers: [{ ...SHEET.covers[0], hides: { fasteners: ['bolt'] } }],
      fasteners: [{ ...bolt, thread: '1/4-20 UNC', grade: 'SAE 2', torque: { lower: '18 lbf.ft' } }],
    });
    torque(bench, '18 lbf.ft', {});
    expect(reasons(bench)).toEqual(['torque/refused bolt']);
  });

  it('is held while two devices disagree', () => {
    const bench = proven();
    const other = bench.desk.beside('other');
    bench.desk.write('disposition', { part: 'p', decision: 'reuse', why: 'good' });
    other.write('disposition', { part: 'p', decision: 'replace', why: 'bad' });
    bench.desk.sees(other);
    expect(reasons(bench)).toEqual(['ledger/conflict disposition of p']);
    bench.desk.write('disposition', { part: 'p', decision: 'replace', why: 'agreed' });
    expect(bench.gate('lid').state).toBe('open');
  });
});

describe('two entries under one id', () => {
  it('hold every cover, and both are told, until the id is struck', () => {
    const bench = proven();
    const [reading] = bench.book().readings;
    const forged = { ...reading!.entry, body: { ...reading!.entry.body, value: '0.0020 in' } };
    const other = bench.desk.beside('other');
    other.entries = [...other.entries.filter(({ id }) => id !== forged.id), forged];
    bench.desk.sees(other);
    expect(reasons(bench)).toEqual([`ledger/id-reused ${forged.id}`]);
    const told = noticesOf(bench.book()).find((words) => words.includes(forged.id));
    expect(told).toContain('0.0030 in');
    expect(told).toContain('0.0020 in');
    // The reading, struck, is wanted again.
    bench.desk.strike(forged.id);
    expect(reasons(bench)).toEqual(['reading/missing pump.gap']);
    expect(bench.book().reused).toHaveLength(1);
  });
});

describe('going past a hold', () => {
  const gate = (bench: Bench) => gateAsSeen(bench.gate('lid'));
  const pass = (bench: Bench) =>
    bench.desk.write('hold-passed', { cover: 'lid', why: 'no time', gate: gate(bench) });
  const close = (bench: Bench) => bench.desk.write('cover-closed', { cover: 'lid', gate: gate(bench) });

  it('is recorded, by whom and why, and leaves the gate held', () => {
    const bench = new Bench(SHEET);
    const passed = pass(bench);
    expect(bench.gate('lid')).toMatchObject({
      state: 'held',
      passed: { entry: { id: passed.id, who: 'bench' }, body: { why: 'no time' } },
      sinceThen: [],
    });
  });

  it('says what was not known then', () => {
    const bench = new Bench(SHEET);
    bench.desk.write('seen', { characteristic: 'pump.rail', found: 'flat', as_wanted: true });
    pass(bench);
    close(bench);
    expect(bench.gate('lid')).toMatchObject({ closed: true, sinceThen: [] });
    bench.read('pump.gap', '0.0090 in', { instrument: 'mic' });
    expect(bench.gate('lid').sinceThen).toMatchObject([{ code: 'verdict/out', about: 'pump.gap' }]);
  });

  it('says what a cover closed in good order would not pass today', () => {
    const bench = proven();
    const closing = close(bench);
    expect(bench.gate('lid')).toMatchObject({
      closed: true,
      last: { entry: { id: closing.id } },
      sinceThen: [],
    });
    bench.desk.strike(bench.book().readings[0]!.entry);
    expect(bench.gate('lid')).toMatchObject({
      state: 'held',
      closed: true,
      sinceThen: [{ code: 'reading/missing', about: 'pump.gap' }],
    });
    // What was known at closing stays as it was written.
    expect((bench.gate('lid').last!.body as { gate: { state: string } }).gate.state).toBe('open');
  });

  it('counts what was known at the closing as known, also when the hold was passed before', () => {
    const bench = new Bench(SHEET);
    pass(bench);
    bench.read('pump.gap', '0.0090 in', { instrument: 'mic' });
    close(bench);
    expect(bench.gate('lid').sinceThen).toEqual([]);
  });

  it('holds no longer once the cover was opened, closed again or not', () => {
    const bench = new Bench(SHEET);
    pass(bench);
    close(bench);
    expect(bench.gate('lid').passed).toBeDefined();
    bench.desk.write('cover-opened', { cover: 'lid', why: 'to look' });
    expect(bench.gate('lid')).toMatchObject({ closed: false });
    expect(bench.gate('lid').passed).toBeUndefined();
    close(bench);
    expect(bench.gate('lid')).toMatchObject({ closed: true });
    expect(bench.gate('lid').passed).toBeUndefined();
    const again = pass(bench);
    expect(bench.gate('lid').passed?.entry.id).toBe(again.id);
  });
});

it('names what it waits for, and where, as people do', () => {
  const bench = new Bench({
    axes: { bolt: ['1'] },
    characteristics: [
      inches('piston.diameter', { name: 'Piston across the skirt', places: ['bolt'] }),
      inches('skirt', {
        name: 'Skirt clearance',
        places: ['bolt'],
        relation: 'piston.diameter',
        limits: { wear: { upper: '0.005 in' } },
      }),
    ],
    covers: [{ id: 'lid', name: 'Lid', order: 1, reopen_hours: 1, hides: { characteristics: ['skirt'] } }],
  });
  expect(bench.gate('lid').reasons).toEqual([
    {
      code: 'reading/missing',
      about: 'skirt@1',
      message: 'Skirt clearance, bolt 1: cannot be worked out until Piston across the skirt is read',
    },
  ]);
});
