import { readFileSync, writeFileSync } from 'node:fs';
import { nextEntry } from '@fettle/book';
import { openDataDirectory } from '@fettle/store';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CheckJson, CommandDesk, nameOf } from '../testing/desk.ts';

const linnet = new CommandDesk();
const others: CommandDesk[] = [];
beforeAll(() => linnet.good('new', '--demo', 'linnet'));
afterAll(() => {
  for (const desk of [linnet, ...others]) desk.clear();
});

/** A desk with the demo on it, to do with as a test likes. */
function demo(): CommandDesk {
  const desk = new CommandDesk(linnet.data);
  others.push(desk);
  return desk;
}

const statusOf = async (desk: CommandDesk, name: string): Promise<string | undefined> =>
  (await desk.json<CheckJson>('check', 'linnet')).judgements.find((one) => nameOf(one) === name)?.status;

describe('what is struck, fitted and reworked', () => {
  it('a struck reading stops counting, and striking the strike brings it back', async () => {
    const desk = demo();
    const [reading] = await desk
      .json<{ id: string; body: { characteristic: string } }[]>('log', 'linnet', '--kind', 'reading')
      .then((all) => all.filter(({ body }) => body.characteristic === 'crank.end-float'));
    expect(await statusOf(desk, 'crank.end-float')).toBe('in');
    const strike = await desk.json<{ id: string }>(
      'strike',
      'linnet',
      reading!.id,
      '--why',
      'read with the caps loose',
    );
    expect(await statusOf(desk, 'crank.end-float')).toBe('missing');
    await desk.good('strike', 'linnet', strike.id, '--why', 'they were tight after all');
    expect(await statusOf(desk, 'crank.end-float')).toBe('in');
  });

  it('striking a reading of the circuit moves the predicted pressure, and says what is taken as new', async () => {
    const desk = demo();
    const readings = await desk.json<{ id: string; body: { characteristic: string } }[]>(
      'log',
      'linnet',
      '--kind',
      'reading',
    );
    const groove = readings.filter(({ body }) => body.characteristic === 'pump.cover-groove');
    for (const { id } of groove) await desk.good('strike', 'linnet', id, '--why', 'to be read again');
    const { out } = await desk.good('oil', 'linnet');
    expect(out).toMatch(/Not measured, taken as new: .*end clearance/);
  });

  it('the opening of a job cannot be struck', async () => {
    const desk = demo();
    const [opening] = await desk.json<{ id: string }[]>('log', 'linnet', '--kind', 'job-opened');
    expect(await desk.refused('strike', 'linnet', opening!.id, '--why', 'no')).toEqual(['strike/opening']);
  });

  it('new gears in the worn body are in by wear and out by new; fitting them displaces the old', async () => {
    const desk = demo();
    const said = await desk.good('fit', 'linnet', 'pump-gears', 'gears-new');
    expect(said.out).toContain('in place of gears-old');
    const check = await desk.json<CheckJson>('check', 'linnet');
    const radial = check.judgements.find((one) => nameOf(one) === 'pump.radial-clearance')!;
    expect(radial.status).toBe('in');
    expect(radial.new?.verdict).toBe('out');
    expect(radial.cautions.map(({ code }) => code)).toContain('verdict/worn-within-wear');
    const before = await desk.json<CheckJson>('check', 'linnet', '--as-found');
    expect(before.judgements.find((one) => nameOf(one) === 'pump.radial-clearance')?.status).toBe('out');
  });

  it('a size that cannot be bought is decided on with that said', async () => {
    const desk = demo();
    const wanted = ['decide', 'linnet', 'block', 'machine', '--why', 'bore 3 is worn', '--size'];
    expect((await desk.good(...wanted, '.020 over')).out).toContain('.020 over cannot be bought');
    expect((await desk.good(...wanted, '.030 over')).out).not.toContain('cannot be bought');
  });

  it('a reworked part begins a new state: its earlier readings are history, as found stays', async () => {
    const desk = demo();
    await desk.good('rework', 'linnet', 'crank', 'mains and rods ground', '--size', '.010 under');
    expect(await statusOf(desk, 'crank.main-journal@3')).toBe('missing');
    await desk.good(
      'read',
      'linnet',
      'crank.main-journal',
      '2.4897in',
      '2.4897in',
      '2.4897in',
      '2.4897in',
      '--at',
      '3',
      '--with',
      'micrometer',
    );
    expect(await statusOf(desk, 'crank.main-journal@3')).toBe('in');
    const found = await desk.json<CheckJson>('check', 'linnet', '--as-found');
    expect(found.judgements.find((one) => nameOf(one) === 'crank.main-journal@3')?.status).toBe('out');
  });
});

describe('gates and torques', () => {
  it('a held cover is not closed, a hold is passed with who and why, and what comes later is told apart', async () => {
    const desk = demo();
    expect(await desk.refused('gate', 'linnet', 'pan', '--close')).toEqual(['gate/held']);
    expect(await desk.refused('gate', 'linnet', 'pan', '--pass')).toEqual(['gate/why-missing']);
    await desk.good('gate', 'linnet', 'pan', '--pass', '--why', 'trial assembly');
    await desk.good('gate', 'linnet', 'pan', '--close');
    const gate = async () =>
      (await desk.json<CheckJson>('check', 'linnet')).gates.find(({ cover }) => cover === 'pan')!;
    expect(await gate()).toMatchObject({ closed: true, since_then: [] });
    const { out } = await desk.fettle(['gate', 'linnet', 'pan']);
    expect(out).toContain('hold passed by Ada');
    expect(out).toContain('trial assembly');
    const readings = await desk.json<{ id: string; body: { characteristic: string } }[]>(
      'log',
      'linnet',
      '--kind',
      'reading',
    );
    const seal = readings.filter(({ body }) => body.characteristic === 'pan.end-seal-length');
    for (const { id } of seal) await desk.good('strike', 'linnet', id, '--why', 'other seals');
    expect((await gate()).since_then.length).toBeGreaterThan(0);
    await desk.good('gate', 'linnet', 'pan', '--open', '--why', 'comes off again');
    expect(await gate()).toMatchObject({ closed: false });
  });

  it('a torque that was applied is recorded even where it is refused as advice, and asked about where it cannot be', async () => {
    const desk = demo();
    const [cover] = (await desk.json<CheckJson>('check', 'linnet')).torques.filter(
      ({ advice }) => advice.advice === 'refused',
    );
    await desk.good('torque', 'linnet', cover!.fastener, '18lbf.ft', '--with', 'torque-wrench');
    expect(await desk.refused('torque', 'linnet', cover!.fastener, '40kgf.m')).toEqual([
      'torque/implausible',
    ]);
    await desk.good('torque', 'linnet', cover!.fastener, '40kgf.m', '--confirm');
    const log = await desk.json<{ body: { torque: string; asked?: { first_said: string } } }[]>(
      'log',
      'linnet',
      '--kind',
      'torque-pass',
    );
    expect(log.at(-1)?.body).toMatchObject({ torque: '40kgf.m', asked: { first_said: '40kgf.m' } });
  });
});

describe('a job out and in', () => {
  it('comes back the same, and goes out the same again', async () => {
    const desk = demo();
    await desk.good('export', 'linnet', '--to', desk.file('a.zip'));
    const other = new CommandDesk();
    others.push(other);
    await other.good('import', desk.file('a.zip'));
    expect(await other.json('check', 'linnet')).toEqual(await desk.json('check', 'linnet'));
    await other.good('export', 'linnet', '--to', other.file('b.zip'));
    expect(other.text('b.zip')).toBe(desk.text('a.zip'));
    const again = await other.json<{ added: number }>('import', desk.file('a.zip'));
    expect(again.added).toBe(0);
  });

  it('a broken archive changes nothing and says why', async () => {
    const other = new CommandDesk();
    others.push(other);
    writeFileSync(other.file('broken.zip'), 'PK not a zip');
    const said = await other.fettle(['import', other.file('broken.zip')]);
    expect(said.status).toBe(2);
    expect(said.err).toMatch(/archive\//);
    expect(await other.json('jobs')).toEqual([]);
    const desk = demo();
    await desk.good('export', 'linnet', '--to', desk.file('whole.zip'));
    const whole = readFileSync(desk.file('whole.zip'));
    writeFileSync(other.file('cut.zip'), whole.subarray(0, whole.length / 2));
    expect((await other.fettle(['import', other.file('cut.zip')])).status).toBe(2);
    expect(await other.json('jobs')).toEqual([]);
  });

  it('an entry of a newer kind is kept through an archive, and shown as unknown', async () => {
    const desk = demo();
    const directory = await openDataDirectory(desk.data);
    if (!directory.ok) throw new Error('no data directory');
    const { job } = (await desk.json<{ job: string }[]>('jobs'))[0]!;
    const kept = await directory.value.store.entries(job);
    if (!kept.ok) throw new Error('no entries');
    const newer = nextEntry(
      kept.value.entries,
      {
        job,
        device: 'a-later-program',
        who: 'Ada',
        at: '2026-01-05T08:00:00.000Z',
        id: '019b8d00-0000-7000-8000-000000000001',
      },
      'note',
      { text: 'x' },
    );
    const appended = await directory.value.writing(() =>
      directory.value.store.append({
        entries: [{ ...newer, kind: 'leak-tested', v: 3, body: { held: '5 min' } }],
      }),
    );
    expect(appended.ok).toBe(true);
    await directory.value.close();
    await desk.good('export', 'linnet', '--to', desk.file('newer.zip'));
    const other = new CommandDesk();
    others.push(other);
    await other.good('import', desk.file('newer.zip'));
    expect((await other.json<CheckJson>('check', 'linnet')).unknown_entries).toMatchObject([
      { kind: 'leak-tested' },
    ]);
    expect((await other.fettle(['check', 'linnet'])).out).toMatch(/does not know: leak-tested/);
    await other.good('export', 'linnet', '--to', other.file('again.zip'));
    expect(readFileSync(other.file('again.zip')).equals(readFileSync(desk.file('newer.zip')))).toBe(true);
  });

  it('two writers who differ are merged, the conflict is shown and holds every cover until one is struck', async () => {
    const [one, two] = [demo(), demo()];
    await one.good('decide', 'linnet', 'crank', 'machine', '--why', 'main 3 is out');
    await two.good('decide', 'linnet', 'crank', 'replace', '--why', 'another one is to be had');
    await two.good('export', 'linnet', '--to', two.file('two.zip'));
    await one.good('import', two.file('two.zip'));
    const check = await one.json<CheckJson>('check', 'linnet');
    expect(check.conflicts).toHaveLength(1);
    expect(check.gates.every(({ reasons }) => reasons.some(({ code }) => code === 'ledger/conflict'))).toBe(
      true,
    );
    const decisions = await one.json<{ id: string }[]>('log', 'linnet', '--kind', 'disposition');
    await one.good('strike', 'linnet', decisions.at(-1)!.id, '--why', 'agreed at the bench');
    expect((await one.json<CheckJson>('check', 'linnet')).conflicts).toEqual([]);
  });
});

describe('torques that prove nothing yet', () => {
  const torqueOf = async (desk: CommandDesk, id: string) =>
    (await desk.json<CheckJson>('check', 'linnet')).torques.find(({ fastener }) => fastener === id)!;
  const wrenchChecked = (desk: CommandDesk, read: string) =>
    desk.good('tools', 'linnet', 'check', 'torque-wrench', '--against', '50lbf.ft', '--read', read);
  const reasonsOf = async (desk: CommandDesk, cover: string) =>
    (await desk.json<CheckJson>('check', 'linnet')).gates
      .find((gate) => gate.cover === cover)!
      .reasons.filter(({ about }) => about === 'main-cap')
      .map(({ code }) => code);
  const MAINS = ['torque', 'linnet', 'main-cap'] as const;
  const PASS = ['--pass', '3', '--of', '3', '--with', 'torque-wrench'] as const;

  it('oiled threads under a torque for dry ones are asked about, recorded, and decided by who and why', async () => {
    const desk = demo();
    expect(await desk.refused(...MAINS, '85lbf.ft', ...PASS, '--condition', 'oiled')).toEqual([
      'torque/condition',
    ]);
    const kept = await desk.good(...MAINS, '85lbf.ft', ...PASS, '--condition', 'oiled', '--confirm');
    expect(kept.out).toContain('Not proven');
    expect(await reasonsOf(desk, 'pistons-in')).toEqual(['torque/other-condition']);
    expect(await desk.refused(...MAINS, '--stands')).toEqual(['torque/why-missing']);
    await desk.good(...MAINS, '--stands', '--why', 'only the heads of the bolts were oiled');
    expect(await reasonsOf(desk, 'pistons-in')).toEqual([]);
    expect(await desk.refused(...MAINS, '--stands', '--why', 'again')).toEqual(['torque/nothing-to-decide']);
  });

  it('a wrench that failed its check, a joint left loose and shells taken out ask for it again', async () => {
    const desk = demo();
    await desk.good(...MAINS, '82lbf.ft', ...PASS);
    expect((await torqueOf(desk, 'main-cap')).unlogged).toEqual([]);
    await wrenchChecked(desk, '61lbf.ft');
    expect(await reasonsOf(desk, 'pistons-in')).toEqual(['torque/to-be-taken-again']);
    await wrenchChecked(desk, '50lbf.ft');
    expect((await torqueOf(desk, 'main-cap')).in_doubt).toHaveLength(3);
    await desk.good(...MAINS, '82lbf.ft', ...PASS);
    expect(await reasonsOf(desk, 'pistons-in')).toEqual([]);
    await desk.good('joint', 'linnet', 'main-cap', 'loose');
    await desk.good('joint', 'linnet', 'main-cap', 'tight');
    expect(await reasonsOf(desk, 'pistons-in')).toEqual(['torque/undone']);
    await desk.good(...MAINS, '82lbf.ft', ...PASS);
    await desk.good('fit', 'linnet', 'main-shells-2');
    expect((await torqueOf(desk, 'main-cap')).unlogged).toEqual([{ main: '2' }]);
  });
});
