import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { CATALOGUE } from '@fettle/core';
import { afterAll, describe, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();
afterAll(() => desk.clear());

const NAMES = [...CATALOGUE.keys()];

describe('single calculations', () => {
  it('are listed with a sentence each', async () => {
    const list = await desk.json<{ name: string; sentence: string }[]>('calc');
    expect(list.map(({ name }) => name).sort()).toEqual([...NAMES].sort());
    expect(list.every(({ sentence }) => sentence.length > 10)).toBe(true);
  });

  it.each(NAMES)('%s tells its schema, answers its example, and a person gets the working', async (name) => {
    const schema = await desk.json<{ input: object; output: object; example: Record<string, unknown> }>(
      'calc',
      name,
      '--schema',
    );
    expect(schema.input).toHaveProperty('properties');
    const answered = await desk.fettle(['calc', name, '--json'], JSON.stringify(schema.example));
    expect(answered.status).toBe(0);
    expect(JSON.parse(answered.out)).toHaveProperty('results');
    const flat = Object.entries(schema.example).map(
      ([key, value]) => `${key}=${typeof value === 'object' ? JSON.stringify(value) : value}`,
    );
    const person = await desk.fettle(['calc', name, ...flat]);
    // An example that needs a bare SI number is refused at key=value, which is the rule there.
    if (person.status === 0) expect(person.out).toContain('Source:');
    else expect(person.err).toMatch(/\(\w+\/[\w-]+\)/);
  });

  const HOSTILE = [
    '',
    'null',
    '[]',
    '"x"',
    '{',
    '{"a":{"b":[1,{"c":null}]}}',
    '{"__proto__":{"x":1}}',
    `{"zzz":"${'9'.repeat(5000)}"}`,
  ];
  it.each(NAMES)(
    '%s answers whatever it is given with exactly one object of issues and status 2',
    async (name) => {
      const broken = Object.fromEntries(
        Object.keys(CATALOGUE.get(name)!.input).map((key) => [key, 'NaN in']),
      );
      for (const input of [...HOSTILE, JSON.stringify(broken)]) {
        const said = await desk.fettle(['calc', name, '--json'], input);
        expect(said.status).toBe(2);
        const { issues } = JSON.parse(said.out) as { issues: object[] };
        expect(issues.length).toBeGreaterThan(0);
        for (const issue of issues)
          expect(Object.keys(issue).sort()).toEqual(['at', 'code', 'got', 'message', 'wanted']);
        expect(said.out).not.toMatch(/NaN,|\bat .*\.js:\d/);
      }
    },
  );

  it('many at once are answered in order, blank lines skipped, and one issue makes status 1', async () => {
    const lines = [
      '{"name":"orifice","input":{"diameter":"1 in","discharge_coefficient":0.8,"pressure_difference":"100 psi","density":"900 kg/m3"}}',
      '',
      '{"name":"nothing"}',
      'garbage',
      '{"name":"viscosity-index","input":{"kv40":"53.47 cSt","kv100":"7.8 cSt"}}',
    ];
    const said = await desk.fettle(['calc', '--lines'], lines.join('\n'));
    expect(said.status).toBe(1);
    const answers = said.out
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as { results?: Record<string, { value: number }> });
    expect(answers.map((answer) => 'results' in answer)).toEqual([true, false, false, true]);
    // ASTM D2270, example B2: 111.
    expect(Math.round(answers[3]!.results!.viscosity_index!.value)).toBe(111);
    const good = await desk.fettle(['calc', '--lines'], lines[0]!);
    expect(good.status).toBe(0);
  });

  it('a missing unit at key=value is an issue, a bare number in JSON is SI', async () => {
    expect(
      await desk.refused(
        'calc',
        'orifice',
        'diameter=1',
        'discharge_coefficient=0.8',
        'pressure_difference=100psi',
        'density=900kg/m3',
      ),
    ).toEqual(['unit/missing']);
    const si = await desk.fettle(
      ['calc', 'orifice', '--json'],
      '{"diameter":0.0254,"discharge_coefficient":0.8,"pressure_difference":"100 psi","density":900}',
    );
    expect(si.status).toBe(0);
  });
});

describe('bad use', () => {
  const WRONG = [
    ['nonsense'],
    ['check'],
    ['check', 'no-such-job'],
    ['read', 'no-such-job', 'x', '1in'],
    ['new'],
    ['new', '--demo', 'castelvar'],
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

it('the installed command answers', () => {
  const bin = fileURLToPath(new URL('../../bin/fettle.js', import.meta.url));
  if (!existsSync(new URL('../../dist/main.js', import.meta.url)))
    throw new Error('build first: npm run build');
  const run = spawnSync(process.execPath, [bin, 'calc', 'thread', 'designation=M8x1.25', '--json'], {
    encoding: 'utf8',
  });
  expect(run.status).toBe(0);
  const { results } = JSON.parse(run.stdout) as { results: { stress_area: { value: number } } };
  // ISO 898-1: 36.6 mm².
  expect(results.stress_area.value * 1e6).toBeCloseTo(36.6, 1);
});
