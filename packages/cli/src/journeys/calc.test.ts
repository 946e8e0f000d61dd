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

  it.each(NAMES)('%s refuses a key it does not know, a null, a decimal comma', async (name) => {
    const { example, input } = CATALOGUE.get(name)!;
    const key = Object.keys(example).find((one) => input[one]?.type === 'quantity');
    const answered = async (change: Record<string, unknown>): Promise<string[]> => {
      const said = await desk.fettle(['calc', name, '--json'], JSON.stringify({ ...example, ...change }));
      expect(said.status).toBe(2);
      return (JSON.parse(said.out) as { issues: { code: string }[] }).issues.map(({ code }) => code);
    };
    expect(await answered({ wibble: 1 })).toContain('input/unknown');
    for (const one of Object.keys(example))
      expect((await answered({ [one]: null })).length).toBeGreaterThan(0);
    if (key !== undefined) expect(await answered({ [key]: '1,5 mm' })).toContain('number/decimal-comma');
  });

  it('two inputs that exclude each other are an issue', async () => {
    const both = ['designation=M8x1.25', 'torque=25N.m', 'nut_factor=0.2', 'thread_friction=0.12'];
    expect(await desk.refused('calc', 'preload', ...both)).toContain('input/conflict');
  });

  it('a person gets the answer in the unit asked in, with SI beside it', async () => {
    const said = await desk.fettle([
      'calc',
      'feeler',
      'goes=3thou',
      'stops=5thou',
      'leaves=3thou,4thou,5thou',
      'upper_limit=4thou',
    ]);
    // 3 thou is 0.0762 mm by the definition of the inch.
    expect(said.out).toMatch(/^ {2}lower +3 thou +0\.0000762 m /m);
    expect(said.out).toMatch(/^ {2}next_leaf +4 thou /m);
    const bolt = await desk.fettle([
      'calc',
      'preload',
      'designation=M8x1.25',
      'torque=25N.m',
      'nut_factor=0.2',
    ]);
    // 25 N·m / (0.2 × 8 mm).
    expect(bolt.out).toMatch(/^ {2}preload +15625 N /m);
  });

  it('lines stay lines with --json; a name beside them, or a schema of nothing, is refused', async () => {
    const said = await desk.fettle(['calc', '--lines', '--json'], '{"name":"x"}\n\n{"name":"y"}\n');
    expect(
      said.out
        .trimEnd()
        .split('\n')
        .map((line) => Object.keys(JSON.parse(line) as object)),
    ).toEqual([['issues'], ['issues']]);
    expect(await desk.fettle(['calc', '--lines'], '\n')).toMatchObject({ status: 0, out: '' });
    expect(await desk.refused('calc', 'thread', '--lines')).toEqual(['command/bad-use']);
    expect(await desk.refused('calc', '--schema')).toEqual(['command/bad-use']);
  });

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
