import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Io } from '../io.ts';
import { main } from '../main.ts';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();
afterAll(() => desk.clear());

/** A world in which asking for the data directory breaks. */
function brokenIo(env: Record<string, string> = {}): Io & { readonly said: string } {
  let said = '';
  return {
    out: () => {},
    err: (text) => {
      said += text;
    },
    now: () => 0,
    random: (count) => new Uint8Array(count),
    get env(): Io['env'] {
      return new Proxy(env, {
        get: (known, key) => {
          if (key === 'FETTLE_DATA') throw new Error('no disk.');
          return known[String(key)];
        },
      });
    },
    user: () => 'ada',
    stdin: () => '',
    watched: false,
    get said() {
      return said;
    },
  };
}

describe('bad use', () => {
  const WRONG = [
    ['nonsense'],
    ['check'],
    ['check', 'no-such-job'],
    ['read', 'no-such-job', 'x', '1in'],
    ['new'],
    ['new', '--demo', 'nonesuch'],
    ['new', '--outline', 'w', '--cylinders', '3', '--mains', '1'],
    ['calc', 'no-such-thing'],
    ['import', '/no/such/file.zip'],
    ['tools', 'no-such-job'],
    ['gate', 'no-such-job', 'pan', '--close'],
    ['oil', 'no-such-job'],
    ['strike', 'no-such-job', 'x', '--why', 'y'],
    ['check', 'x', '--bogus'],
  ];
  it.each(WRONG.map((words) => ({ words })))(
    '$words ends with 2, in words and as issues',
    async ({ words }) => {
      const person = await desk.fettle(words);
      expect(person.status).toBe(2);
      expect(person.err.trim()).toMatch(/\w+\/[\w-]+\)$/);
      const program = await desk.fettle([...words, '--json']);
      expect(program.status).toBe(2);
      expect((JSON.parse(program.out) as { issues: object[] }).issues.length).toBeGreaterThan(0);
    },
  );

  it('a slip of the command is answered by what was meant, with the help that there is', async () => {
    const { err } = await desk.fettle(['chekc', 'linnet']);
    expect(err).toContain('Did you mean check?');
    expect(err).toContain('See "fettle --help"');
    expect((await desk.fettle(['oil', 'x', '--wibble'])).err).toContain('See "fettle oil --help"');
    expect((await desk.fettle(['read', 'x', 'y', '-3thou'])).err).toContain('behind a lone "--"');
  });

  it('a program at fault says so, and shows where only when asked to', async () => {
    const io = brokenIo();
    expect(await main(['jobs'], io)).toBe(2);
    expect(io.said).toMatch(/^The program is at fault: no disk\. .*\(program\/fault\)\n$/);
    const traced = brokenIo({ FETTLE_TRACE: '1' });
    await main(['jobs'], traced);
    expect(traced.said).toMatch(/\n +at /);
  });

  it('help has an example for every command', async () => {
    const { out } = await desk.fettle(['--help']);
    const commands = [...out.matchAll(/^ {2}([a-z]+) .*$/gm)]
      .map((match) => match[1]!)
      .filter((name) => name !== 'help' && name !== 'fettle');
    expect(commands).toEqual(
      expect.arrayContaining([
        'new',
        'jobs',
        'tools',
        'read',
        'check',
        'why',
        'oil',
        'gate',
        'strike',
        'export',
        'import',
        'calc',
      ]),
    );
    for (const command of new Set(commands)) {
      const help = await desk.fettle([command, '--help']);
      expect(help.status).toBe(0);
      expect(help.out).toContain(`fettle ${command}`);
      expect(help.out).toMatch(/Examples?:/);
    }
  });
});

/** Words that a job refuses, and the code it refuses them with. */
const REFUSED: readonly (readonly [code: string, ...words: string[]])[] = [
  ['command/bad-use', 'check', 'linnet', 'extra'],
  ['characteristic/unknown', 'read', 'linnet', 'nothing', '1in', '--with', 'micrometer'],
  ['reading/nothing-said', 'read', 'linnet', 'crank.end-float'],
  ['unit/missing', 'read', 'linnet', 'crank.end-float', '0.0115', '--with', 'indicator'],
  ['unit/wrong-kind', 'read', 'linnet', 'crank.end-float', '0.0115kg', '--with', 'indicator'],
  ['number/decimal-comma', 'read', 'linnet', 'crank.end-float', '0,0115in', '--with', 'indicator'],
  ['number/unreadable', 'read', 'linnet', 'crank.end-float', 'abc', '--with', 'indicator'],
  ['instrument/unknown', 'read', 'linnet', 'crank.end-float', '0.0115in', '--with', 'nothing'],
  ['place/unknown', 'read', 'linnet', 'crank.end-float', '0.0115in', '--at', '3', '--with', 'indicator'],
  [
    'reading/places-do-not-match',
    'read',
    'linnet',
    'crank.end-float',
    '11thou',
    '12thou',
    '--with',
    'indicator',
  ],
  ['command/bad-use', 'read', 'linnet', 'crank.end-float', '--', '-11thou', '--with'],
  [
    'reading/both-said',
    'read',
    'linnet',
    'pump.radial-clearance',
    '3thou',
    '--goes',
    '2thou',
    '--with',
    'leaves',
  ],
  ['characteristic/unknown', 'why', 'linnet', 'nothing'],
  ['place/unknown', 'why', 'linnet', 'crank.main-journal@9'],
  ['unit/missing', 'oil', 'linnet', '--speed', '600'],
  ['number/out-of-range', 'oil', 'linnet', '--speed', '0rpm'],
  ['number/out-of-range', 'oil', 'linnet', '--speed', '1e9rpm'],
  ['number/out-of-range', 'oil', 'linnet', '--temperature', '2000degC'],
  ['oil/unknown-grade', 'oil', 'linnet', '--oil', 'castor'],
  ['number/out-of-range', 'oil', 'linnet', '--trials', '5'],
  ['cover/unknown', 'gate', 'linnet', 'bonnet'],
  ['gate/held', 'gate', 'linnet', 'pan', '--close'],
  ['gate/why-missing', 'gate', 'linnet', 'pan', '--pass'],
  ['command/bad-use', 'gate', 'linnet', 'pan', '--pass', '--close'],
  ['command/bad-use', 'gate', 'linnet', '--close'],
  ['entry/unknown', 'strike', 'linnet', '12345678', '--why', 'x'],
  ['command/bad-use', 'strike', 'linnet', '12345678'],
  ['file/cannot-write', 'export', 'linnet', '--to', '/no/such/folder/x.zip'],
  ['unit/missing', 'torque', 'linnet', 'rod', '41'],
  ['number/out-of-range', 'torque', 'linnet', 'rod', '--', '-4N.m'],
  ['fastener/unknown', 'torque', 'linnet', 'bonnet', '4N.m'],
  ['torque/pass', 'torque', 'linnet', 'rod', '41N.m', '--pass', '3', '--of', '2'],
  ['part/known', 'part', 'linnet', 'crank', 'Crank'],
  ['part/unknown-condition', 'part', 'linnet', 'new-one', 'New', '--condition', 'rusty'],
  ['position/unknown', 'part', 'linnet', 'new-one', 'New', '--at', 'nowhere'],
  ['part/unknown', 'fit', 'linnet', 'pump-gears', 'nothing'],
  ['part/unknown', 'rework', 'linnet', 'nothing', 'ground'],
  ['decision/unknown', 'decide', 'linnet', 'crank', 'burn', '--why', 'x'],
  ['size/unknown', 'decide', 'linnet', 'crank', 'machine', '--size', '.010under', '--why', 'x'],
  ['size/unknown', 'rework', 'linnet', 'crank', 'ground', '--size', '.010under'],
  ['size/unknown', 'part', 'linnet', 'new-one', 'New', '--size', '.010under'],
  ['job/unknown', 'check', ''],
  ['number/unreadable', 'order', 'linnet', 'spring', '--price', 'abc'],
  ['number/unreadable', 'order', 'linnet', 'spring', '--price', ''],
  ['order/unknown', 'receive', 'linnet', 'nothing'],
  ['seen/is-measured', 'see', 'linnet', 'crank.end-float', 'fine', '--as-wanted'],
  ['seen/undecided', 'see', 'linnet', 'crank.main-cap-arrow', 'front', '--at', '1'],
  ['unit/missing', 'gauge', 'linnet', '7', '600rpm', '--with', 'oil-gauge'],
  ['number/out-of-range', 'gauge', 'linnet', '--with', 'oil-gauge', '--', '-7psi', '600rpm'],
  ['oil/unknown-grade', 'gauge', 'linnet', '7psi', '600rpm', '--with', 'oil-gauge', '--oil', 'castor'],
  ['instrument/unknown', 'gauge', 'linnet', '7psi', '600rpm'],
  ['command/bad-use', 'tools', 'linnet', 'polish'],
  ['instrument/no-uncertainty', 'tools', 'linnet', 'add', 'x', 'X', '--type', 'yardstick'],
  [
    'instrument/unreadable-uncertainty',
    'tools',
    'linnet',
    'add',
    'x',
    'X',
    '--type',
    'micrometer',
    '--u',
    '0 in',
  ],
  [
    'instrument/unreadable-uncertainty',
    'tools',
    'linnet',
    'add',
    'x',
    'X',
    '--type',
    'micrometer',
    '--u',
    '0.1',
  ],
  ['unit/wrong-kind', 'tools', 'linnet', 'check', 'micrometer', '--against', '1in', '--read', '1kg'],
  ['unit/unknown', 'tools', 'linnet', 'check', 'micrometer', '--against', '1in', '--read', 'good'],
  ['amend/nothing', 'amend', 'linnet', 'crank.end-float', '--trust', 'printed', '--why', 'x'],
  [
    'amend/trust',
    'amend',
    'linnet',
    'crank.end-float',
    '--trust',
    'sworn',
    '--why',
    'x',
    '--wear-upper',
    '9 thou',
  ],
  ['file/unknown-ending', 'spec', 'linnet', '--to', 'x.xls'],
  ['file/cannot-read', 'spec', 'linnet', '--from', '/no/such/file.csv'],
  ['outline/cylinders', 'new', '--outline', 'inline', '--mains', '3'],
  ['number/unreadable', 'new', '--outline', 'inline', '--cylinders', '4', '--mains', '3', '--cap', ''],
  ['command/bad-use', 'new', '--outline', 'inline', '--demo', 'linnet'],
  ['archive/not-a-zip', 'import', new URL(import.meta.url).pathname],
];

describe('a job refuses, changing nothing', () => {
  const linnet = new CommandDesk();
  beforeAll(() => linnet.good('new', '--demo', 'linnet'));
  afterAll(() => linnet.clear());

  it.each(REFUSED.map(([code, ...words]) => ({ code, words })))('$words: $code', async ({ code, words }) => {
    const entries = async () => (await linnet.json<{ entries: number }[]>('jobs')).map((job) => job.entries);
    const before = await entries();
    const person = await linnet.fettle(words);
    expect(person.status).toBe(2);
    expect(person.out).toBe('');
    expect(person.err).not.toMatch(/NaN|undefined|\bat .*:\d+:\d+/);
    // "--json" stands before what a lone "--" ends.
    const asked = await linnet.fettle(['--json', ...words]);
    const { issues } = JSON.parse(asked.out) as { issues: Record<string, string>[] };
    expect(issues.map((one) => one.code)).toContain(code);
    for (const issue of issues)
      for (const key of ['code', 'at', 'got', 'wanted', 'message']) expect(issue[key]).toBeTypeOf('string');
    expect(await entries()).toEqual(before);
  });
});
