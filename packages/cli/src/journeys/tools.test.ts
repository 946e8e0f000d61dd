import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CheckJson, CommandDesk } from '../testing/desk.ts';

/** The second demo job, by the id it always has. */
const RETURNED = '01965c1e-4000-7000-8000-00000022172e';

let fresh: CommandDesk;
const desks: CommandDesk[] = [];
beforeAll(async () => {
  fresh = new CommandDesk();
  await fresh.good('new', '--demo', 'linnet');
});
afterAll(() => {
  for (const desk of [fresh, ...desks]) desk.clear();
});
/** A desk of its own with the library van on it. */
const linnet = (): CommandDesk => {
  const desk = new CommandDesk(fresh.data);
  desks.push(desk);
  return desk;
};
const tools = async (desk: CommandDesk, ...words: string[]): Promise<string> =>
  (await desk.good('tools', 'linnet', ...words)).out.replace(/\s+/g, ' ');
const statusOf = async (desk: CommandDesk, name: string): Promise<(string | undefined)[]> =>
  (await desk.json<CheckJson>('check', 'linnet')).judgements
    .filter((one) => one.characteristic === name)
    .map(({ status }) => status);

describe('the tool chest at the command line', () => {
  it('builds an uncertainty from what is known of a tool and shows it line by line', async () => {
    const desk = linnet();
    const words = await tools(
      desk,
      'add',
      'mic3',
      'Micrometer 2-3 in',
      '--type',
      'micrometer',
      '--has',
      'range=3 in',
    );
    expect(words).toContain('Micrometer 2-3 in: ±0.000259 in at about 95 %');
    expect(words).toContain(
      'error of the screw and the anvils ± 5 um rectangular, ÷ 1.73 0.000114 in all its readings',
    );
    expect(words).toContain('Together u = 0.000129 in, so U = 0.000259 in');
    expect(await tools(desk, 'show', 'mic3')).toBe(words);
    expect(await tools(desk, 'types')).toMatch(/burette .*class: A, B/);
  });

  it('keeps the U somebody states, to the digit', async () => {
    const words = await tools(linnet(), 'show', 'micrometer');
    expect(words).toContain('Outside micrometers: ±0.0002 in');
    expect(words).toContain('no budget stands behind it');
  });

  it('a failed check withholds every verdict that rests on the tool, and says what to do', async () => {
    const desk = linnet();
    expect(await statusOf(desk, 'pump.cover-groove')).toEqual(['out']);
    // The demo's own check after the readings was good: struck, the one before is the last good one.
    const checks = await desk.json<{ id: string; body: { instrument: string } }[]>(
      'log',
      'linnet',
      '--kind',
      'instrument-checked',
    );
    const after = checks.filter(({ body }) => body.instrument === 'depth').at(-1)!;
    await desk.good('strike', 'linnet', after.id, '--why', 'held against the wrong block');
    const words = await tools(
      desk,
      'check',
      'depth',
      '--against',
      '0.7500 in',
      '--read',
      '0.7506 in',
      '--when',
      'after',
    );
    expect(words).toContain(
      '0.0006 in off, 0.0004 in allowed: failed. 11 entries since its last good check in doubt',
    );
    expect(await statusOf(desk, 'pump.cover-groove')).toEqual(['cannot-tell']);
    const { out } = await desk.fettle(['why', 'linnet', 'pump.cover-groove']);
    expect(out).toContain('To be taken again');
    expect(out).toContain('0.0035in, to be taken again');
    expect((await desk.fettle(['gate', 'linnet', 'pan'])).out).toContain('cannot tell, to be taken again');
    expect((await desk.fettle(['log', 'linnet'])).out).toContain('Depth micrometer failed its check');

    const corrected = await tools(
      desk,
      'correct',
      'depth',
      '--add',
      '-0.0006 in',
      '--doubt',
      '0.0003 in',
      '--why',
      'six tenths deep on the block, before and after',
    );
    expect(corrected).toContain('11 readings corrected by what was found');
    expect(await statusOf(desk, 'pump.cover-groove')).toEqual(['out']);
    expect((await desk.fettle(['why', 'linnet', 'pump.cover-groove'])).out).toContain(
      'corrected by -0.0006 in',
    );
  });

  it('finds the demo’s tools checked before and after, and its study left at that', async () => {
    const words = await tools(linnet());
    expect(words).toContain(
      'Outside micrometers: Last check, after the readings, against 2.0000 in it read 2.0001 in: 0.0001 in off, 0.0002 in allowed: good.',
    );
    expect(words).toContain('telescoping Telescoping gauge and micrometer telescoping gauge ±0.0007 in');
    expect(words).not.toContain('to be taken again');
    const shown = await tools(linnet(), 'show', 'telescoping');
    expect(shown).toContain(
      'bore 1, top, thrust: 10 readings of one thing: mean 3.50520 in, s = 0.000258 in',
    );
    expect(shown).toContain('Assumed so far is 0.000247 in: about right');
  });

  it('a bore gauge set in the pistons’ own micrometer leaves ±.0002 in of a clearance', async () => {
    const desk = new CommandDesk();
    desks.push(desk);
    await desk.good('new', '--demo', 'returned');
    const { out } = await desk.fettle(['why', RETURNED, 'piston.skirt-clearance']);
    expect(out).toMatch(/±0\.0002 in/);
    expect(out).not.toMatch(/±0\.0003 in/);
    expect((await desk.fettle(['tools', RETURNED, 'show', 'bore-set'])).out).toContain(
      'whose error cancels between the two',
    );
  });

  it('studies one’s own repeatability, changes nothing by it, and adopts it when asked', async () => {
    const desk = linnet();
    const readings = '3.5050in 3.5053in 3.5051in 3.5055in 3.5052in 3.5049in 3.5052in 3.5054in'.split(' ');
    const words = await tools(desk, 'study', 'telescoping', ...readings, '--what', 'bore 1, top');
    expect(words).toContain('8 readings of one thing: mean 3.50520 in, s = 0.0002 in');
    expect(words).toContain('U of one reading goes from 0.0007 in to 0.000636 in');
    expect(await tools(desk, 'show', 'telescoping')).toContain('±0.0007 in');
    expect(await tools(desk, 'adopt', 'telescoping')).toContain('±0.000636 in');
  });

  it('takes parts and occasions apart', async () => {
    const words = await tools(
      linnet(),
      'study',
      'telescoping',
      ...'1/mon: 3.5050in 3.5053in 1/tue: 3.5051in 3.5055in 2/mon: 3.5060in 3.5062in 2/tue: 3.5061in 3.5063in'.split(
        ' ',
      ),
    );
    expect(words).toContain('8 readings: 2 parts, 2 occasions, 2 each time.');
    expect(words).toContain('parts');
  });

  it('finds the stack of leaves for a gap no leaf fills', async () => {
    const words = await tools(linnet(), 'stack', 'leaves', '38.5thou');
    // Half of each variance is common: √((3 × .3536)² + 3 × .3536² + 2 × (2.5/25.4)²) = 1.233.
    expect(words).toMatch(/^1\.5 \+ 12 \+ 25 38\.5 thou ±1\.23 thou 3 leaves/);
  });

  it.each([
    ['command/bad-use', 'show', 'nothing'],
    ['command/bad-use', 'add', 'x', 'Two', 'names', '--type', 'micrometer'],
    ['command/bad-use', 'add', 'x', 'X', '--type', 'micrometer', '--has', 'range'],
    ['command/bad-use', 'add', 'x', 'X', '--type', 'micrometer', '--u', '1 in', '--has', 'range=3 in'],
    ['instrument/unknown-setting', 'add', 'x', 'X', '--type', 'micrometer', '--has', 'colour=red'],
    [
      'instrument/no-such-setting-standard',
      'add',
      'x',
      'X',
      '--type',
      'dial bore gauge',
      '--set-in',
      'nobody',
    ],
    ['command/bad-use', 'study', 'micrometer', '1in'],
    ['study/unreadable', 'study', 'micrometer', '1in', 'two'],
    ['command/bad-use', 'adopt', 'micrometer'],
    ['correction/nothing-reopened', 'correct', 'micrometer', '--add', '1 in'],
    ['command/bad-use', 'check', 'micrometer', '--against', '1in', '--read', '1in', '--when', 'never'],
    ['instrument/no-leaves', 'stack', 'micrometer', '1in'],
    ['unit/missing', 'stack', 'leaves', '38'],
  ])('answers %s', async (code, ...words) => {
    const { status, err } = await linnet().fettle(['tools', 'linnet', ...words]);
    expect(status).toBe(2);
    expect(err).toContain(`(${code})`);
  });
});
