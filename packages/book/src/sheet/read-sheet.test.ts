import type { Issue } from '@fettle/core';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSheet } from './read-sheet.ts';

const source = { document: 'manual', page: '12', trust: 'printed' };
const journal = {
  id: 'rod.journal',
  name: 'Rod journal',
  kind: 'length',
  unit: 'in',
  position: 'crank',
  places: ['rod', 'end'],
  limits: { new: { lower: '2.1240 in', upper: '2.1250 in' }, wear: { lower: '2.1230 in' } },
  source,
};
const shell = { ...journal, id: 'rod.shell', position: 'rod-{rod}', places: ['rod'], limits: undefined };
const clearance = {
  id: 'rod.clearance',
  name: 'Rod clearance',
  kind: 'length',
  unit: 'thou',
  places: ['rod'],
  relation: {
    linear: {
      terms: [
        { factor: 1, of: 'rod.shell' },
        { factor: -1, of: { reduce: { by: 'mean', over: ['end'], of: 'rod.journal' } } },
      ],
    },
  },
  limits: { new: { lower: '1.0 thou', upper: '2.6 thou' }, wear: { upper: '3.5 thou' } },
  source,
};
const good = {
  format: 'fettle-spec-sheet',
  version: 1,
  title: 'Test engine',
  documents: { manual: { title: 'Shop manual' } },
  axes: { rod: ['1', '2', '3', '4'], end: ['front', 'rear'] },
  positions: [
    { id: 'crank', name: 'Crankshaft' },
    { id: 'rod-{rod}', name: 'Rod {rod}', places: ['rod'] },
  ],
  characteristics: [journal, shell, clearance],
  fasteners: [
    {
      id: 'rod.nut',
      name: 'Rod nut',
      thread: '3/8-24 UNF',
      torque: { lower: '40 lbf.ft', upper: '42 lbf.ft' },
      places: ['rod'],
      source,
    },
  ],
  covers: [
    {
      id: 'pan',
      name: 'Oil pan',
      order: 1,
      reopen_hours: 5,
      hides: { characteristics: ['rod.*'], fasteners: ['rod.nut'] },
    },
  ],
  oil: {
    grades: { 'sae-30': { name: 'SAE 30', kv40: '93 mm2/s', kv100: '10.8 mm2/s' } },
    fill: 'sae-30',
    density15: '885 kg/m3',
    hot: '93 degC',
    speeds: ['600 rpm'],
    circuit: {
      gauge: 'gallery',
      elements: [
        { id: 'pump', law: 'gear-pump', to: 'gallery', displacement: '0.6 in3', speed_ratio: 0.5 },
        {
          id: 'rods',
          law: 'groove-bearing',
          from: 'gallery',
          to: 'sump',
          diameter: '2.1245 in',
          land_length: '.5 in',
          radial_clearance: { from: 'rod.clearance', reduce: 'mean', factor: 0.5, nominal: '1.8 thou' },
          eccentricity_ratio: 0.6,
        },
      ],
    },
  },
};

type Loose = Record<string, unknown>;

const issuesOf = (value: unknown): readonly Issue[] => {
  const read = readSheet(value);
  return read.ok ? [] : read.issues;
};
/** The good sheet with fields of one characteristic changed. */
const withChange = (index: number, change: Loose, sheet: Loose = {}) => ({
  ...good,
  characteristics: good.characteristics.map((c, i) => (i === index ? { ...c, ...change } : c)),
  ...sheet,
});

it('a sound sheet is read, and read again comes out the same', () => {
  const read = readSheet(good);
  expect(read).toMatchObject({ ok: true });
  if (read.ok) expect(readSheet(read.value)).toEqual(read);
});

it('units come out under their canonical names, so that they can be looked up', () => {
  const read = readSheet(withChange(0, { unit: 'inches' }));
  expect(read.ok && read.value.characteristics[0]?.unit).toBe('in');
});

it('a misspelt field is named with its place', () => {
  expect(issuesOf(withChange(0, { limts: {} }))[0]).toMatchObject({
    code: 'sheet/malformed',
    at: '/characteristics/0',
    wanted: 'no key limts',
  });
});

it('a fault inside a relation is shown where it lies, not at the relation as a whole', () => {
  const relation = { linear: { terms: [{ factor: 'one', of: 'rod.shell' }] } };
  expect(issuesOf(withChange(2, { relation }))[0]).toMatchObject({
    at: '/characteristics/2/relation/linear/terms/0/factor',
    got: '"one"',
  });
});

const faulty: [what: string, value: unknown, code: string, at: string, got?: string][] = [
  [
    'an id used twice',
    withChange(1, { id: 'rod.journal' }),
    'duplicate-id',
    '/characteristics/1/id',
    'rod.journal',
  ],
  [
    'a document the sheet does not list',
    withChange(0, { source: { document: 'toString', trust: 'printed' } }),
    'unknown-document',
    '/characteristics/0/source/document',
    'toString',
  ],
  [
    'an unknown axis',
    withChange(0, { places: ['rod', 'constructor'] }),
    'unknown-axis',
    '/characteristics/0/places/1',
  ],
  [
    'an unknown value of an axis',
    withChange(0, { only: { rod: ['5'] } }),
    'unknown-value',
    '/characteristics/0/only/rod',
    '5',
  ],
  [
    'judging over an axis that is none of its places',
    withChange(1, { reduce: { by: 'worst', over: ['end'] } }),
    'unknown-axis',
    '/characteristics/1/reduce/over/0',
  ],
  [
    'a relation to nothing',
    withChange(2, { relation: 'rod.shel' }),
    'unknown-characteristic',
    '/characteristics/2/relation',
    'rod.shel',
  ],
  [
    'an axis of an input that the result does not list',
    withChange(2, { relation: 'rod.journal' }),
    'axis-left-over',
    '/characteristics/2/relation',
    'end',
  ],
  [
    'places for which an input has no value',
    withChange(1, { only: { rod: ['1', '2', '3'] } }),
    'place-without-input',
    '/characteristics/2/relation',
    'rod 4',
  ],
  [
    'a ring through a relation and a reading in another measurand',
    withChange(1, {
      read_as: { 'per side': { how: 'gauge on one side', plus: [{ factor: 1, of: 'rod.clearance' }] } },
    }),
    'cycle',
    '/characteristics/1',
    'rod.shell → rod.clearance → rod.shell',
  ],
  [
    'a length added to a torque',
    withChange(1, { kind: 'torque', unit: 'N.m' }),
    'kinds-mixed',
    '/characteristics/2/relation/linear/terms/1',
    'length',
  ],
  [
    'a limit in a unit of another kind',
    withChange(0, { limits: { new: { lower: '2 psi' } } }),
    'unit/wrong-kind',
    '/characteristics/0/limits/new/lower',
    '2 psi',
  ],
  [
    'a limit without a unit',
    withChange(0, { limits: { new: { lower: '2.124' } } }),
    'unit/missing',
    '/characteristics/0/limits/new/lower',
  ],
  [
    'limits the wrong way round, across units',
    withChange(0, { limits: { new: { lower: '3 mm', upper: '7 thou' } } }),
    'limits-crossed',
    '/characteristics/0/limits/new',
  ],
  [
    'a target outside its limits',
    withChange(0, { limits: { new: { lower: '1 in', upper: '2 in', target: '3 in' } } }),
    'target-outside',
    '/characteristics/0/limits/new/target',
  ],
  [
    'a wear limit tighter than the new one',
    withChange(2, { limits: { new: { upper: '2.6 thou' }, wear: { upper: '.0025 in' } } }),
    'wear-inside-new',
    '/characteristics/2/limits/wear/upper',
    '.0025 in',
  ],
  ['limits from nowhere', withChange(0, { source: undefined }), 'no-source', '/characteristics/0/limits/new'],
  [
    'a unit of another kind',
    withChange(0, { unit: 'psi' }),
    'unit-and-kind',
    '/characteristics/0/unit',
    'psi',
  ],
  [
    'a thing looked at, with nothing said of what is wanted',
    withChange(1, { kind: 'seen', unit: undefined }),
    'seen-without-wanted',
    '/characteristics/1/wanted',
  ],
  [
    'a thing looked at, with limits',
    withChange(0, { kind: 'seen', unit: undefined, wanted: 'no scores' }),
    'seen-with-number',
    '/characteristics/0/limits',
  ],
  [
    'a position pattern with an axis it does not have',
    withChange(1, { position: 'rod-{end}' }),
    'position-axis',
    '/characteristics/1/position',
  ],
  [
    'a position the sheet does not have',
    withChange(1, { position: 'con-rod-{rod}' }),
    'unknown-position',
    '/characteristics/1/position',
    'con-rod-1, con-rod-2, con-rod-3, con-rod-4',
  ],
  [
    'a cover that hides nothing known',
    { ...good, covers: [{ ...good.covers[0], hides: { characteristics: ['cam.*'] } }] },
    'cover-hides-nothing',
    '/covers/0/hides/characteristics/0',
    'cam.*',
  ],
  [
    'two covers that go on at once',
    { ...good, covers: [good.covers[0], { ...good.covers[0], id: 'head' }] },
    'cover-order',
    '/covers/1/order',
  ],
  [
    'a torque in the unit of a spring rate',
    { ...good, fasteners: [{ ...good.fasteners[0], torque: { lower: '40 lbf/ft' } }] },
    'unit/wrong-kind',
    '/fasteners/0/torque/lower',
  ],
  [
    'a thread nobody knows',
    { ...good, fasteners: [{ ...good.fasteners[0], thread: 'five sixteenths' }] },
    'thread',
    '/fasteners/0/thread',
    'five sixteenths',
  ],
  [
    'a hole with less than no thread in it',
    { ...good, fasteners: [{ ...good.fasteners[0], into: { engagement: '0 mm' } }] },
    'hole-figure-sign',
    '/fasteners/0/into/engagement',
  ],
  [
    'a fill of an unknown oil',
    { ...good, oil: { ...good.oil, fill: 'sae-40' } },
    'unknown-grade',
    '/oil/fill',
    'sae-40',
  ],
  [
    'a speed that is none',
    { ...good, oil: { ...good.oil, speeds: ['600 psi'] } },
    'unit/wrong-kind',
    '/oil/speeds/0',
  ],
  [
    'an axis value that cannot be typed as a place',
    { ...good, axes: { ...good.axes, turn: ['0 deg'] } },
    'axis-value',
    '/axes/turn/0',
    '0 deg',
  ],
];

it('a thread of a form that is not known here may stand on a sheet: no advice is given on it, and the sheet loads', () => {
  const cycle = { ...good.fasteners[0], thread: '5/16-26', into: { thread: '5/16-22 BSW' } };
  expect(readSheet({ ...good, fasteners: [cycle] }).ok).toBe(true);
});

describe('what a schema cannot see is found, with where and what came', () => {
  for (const [what, value, code, at, got] of faulty)
    it(what, () => {
      const found = issuesOf(value).filter(
        (issue) => issue.code === (code.includes('/') ? code : `sheet/${code}`) && issue.at === at,
      );
      expect(found, JSON.stringify(issuesOf(value), null, 1)).not.toEqual([]);
      const [issue] = found;
      if (got !== undefined) expect(issue?.got).toBe(got);
      expect(issue?.wanted).not.toBe('');
      expect(issue?.message).toMatch(/\.$/);
    });
});

describe('what the circuit takes from characteristics is checked', () => {
  const circuitOf = (elements: Loose[]) => ({
    ...good,
    oil: { ...good.oil, circuit: { gauge: 'gallery', elements } },
  });
  const circuitWith = (clearance: Loose) =>
    circuitOf([{ id: 'a', law: 'x', from: 'gallery', to: 'sump', deep: { clearance } }]);
  const at = '/oil/circuit/elements/0/deep/clearance';
  it('the characteristic exists', () => {
    expect(issuesOf(circuitWith({ from: 'rod.gap', nominal: '1 thou' }))).toMatchObject([
      { code: 'sheet/unknown-characteristic', at: `${at}/from`, got: 'rod.gap' },
    ]);
  });
  it('one value is taken, not one for each rod', () => {
    expect(issuesOf(circuitWith({ from: 'rod.clearance', nominal: '1 thou' }))).toMatchObject([
      { code: 'sheet/axis-left-over', at, got: 'rod' },
    ]);
  });
  it('a fixed axis has that value', () => {
    expect(
      issuesOf(circuitWith({ from: 'rod.clearance', at: { rod: '9' }, nominal: '1 thou' })),
    ).toMatchObject([{ code: 'sheet/unknown-value', at: `${at}/at/rod`, got: '9' }]);
  });
  it('an element of no law, and a pump without its size, are said before anybody computes a pressure', () => {
    const [pump, rods] = good.oil.circuit.elements;
    expect(issuesOf(circuitOf([{ ...pump }, { ...rods, law: 'sieve' }]))).toMatchObject([
      { at: '/oil/circuit/elements/1/law', got: 'sieve' },
    ]);
    expect(issuesOf(circuitOf([{ ...pump, displacement: '0.6 in' }, { ...rods }]))).toMatchObject([
      { at: '/oil/circuit/elements/0/displacement', got: '0.6 in' },
    ]);
  });
  it('the as-new value is not left out', () => {
    expect(issuesOf(circuitWith({ from: 'rod.clearance', reduce: 'mean' }))).toMatchObject([
      { code: 'sheet/malformed', at: `${at}/nominal`, got: 'nothing' },
    ]);
  });
});

describe('a relation through a calculator is held to the catalogue', () => {
  const through = (calculator: Loose) =>
    issuesOf(
      withChange(2, {
        relation: { calculator: { name: 'piston-motion', output: 'distance_from_top', ...calculator } },
      }),
    );
  const at = '/characteristics/2/relation/calculator';
  const inputs = {
    stroke: { is: '4.47 in' },
    rod_length: { of: 'rod.shell' },
    crank_angle: { is: '90 deg' },
  };
  it('and passes when all is known', () => {
    expect(through({ inputs })).toEqual([]);
  });
  it.each([
    [{ name: 'piston-movement', inputs }, 'sheet/unknown-calculator', `${at}/name`],
    [{ name: 'constructor', inputs }, 'sheet/unknown-calculator', `${at}/name`],
    [{ inputs, output: 'area' }, 'sheet/unknown-output', `${at}/output`],
    [{ inputs, output: 'constructor' }, 'sheet/unknown-output', `${at}/output`],
    [{ inputs, output: 'velocity' }, 'sheet/kinds-mixed', '/characteristics/2/relation'],
    [{ inputs: { ...inputs, width: { of: 'rod.shell' } } }, 'sheet/unknown-input', `${at}/inputs/width`],
    [{ inputs: { stroke: inputs.stroke } }, 'sheet/missing-input', `${at}/inputs`],
    [{ inputs: { ...inputs, stroke: { is: '3 psi' } } }, 'unit/wrong-kind', `${at}/inputs/stroke/is`],
    [
      { inputs: { ...inputs, crank_angle: { of: 'rod.shell' } } },
      'sheet/kinds-mixed',
      `${at}/inputs/crank_angle`,
    ],
  ])('otherwise the fault is named: %j', (calculator, code, where) => {
    expect(through(calculator).map((issue) => [issue.code, issue.at])).toContainEqual([code, where]);
  });
});

it('a file nested beyond reason is refused before it is read', () => {
  let relation: unknown = 'rod.shell';
  for (let i = 0; i < 50_000; i++) relation = { reduce: { by: 'worst', over: ['rod'], of: relation } };
  expect(issuesOf(withChange(2, { relation }))).toMatchObject([{ code: 'sheet/too-deep' }]);
});

it('a chain of a thousand relations is followed without a fall', () => {
  const chain = Array.from({ length: 1000 }, (_, i) => ({
    ...clearance,
    id: `link.${i}`,
    relation: i === 999 ? 'rod.shell' : `link.${i + 1}`,
  }));
  expect(issuesOf({ ...good, characteristics: [...good.characteristics, ...chain] })).toEqual([]);
});

it('axes that multiply beyond reason are refused, not counted out', () => {
  const axes = Object.fromEntries(
    ['a', 'b', 'c', 'd'].map((axis) => [axis, Array.from({ length: 400 }, (_, i) => `${i}`)]),
  );
  const sheet = { ...good, axes: { ...good.axes, ...axes } };
  const found = issuesOf(withChange(0, { places: Object.keys(axes) }, { axes: sheet.axes }));
  expect(found.map((issue) => issue.code)).toContain('sheet/too-many-places');
});

it('no value whatever makes it throw', () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      expect(readSheet(value)).toHaveProperty('ok');
    }),
  );
});

it('a sound sheet with anything put anywhere in it is read or refused, never thrown at', () => {
  const paths: string[][] = [];
  const walk = (value: unknown, path: string[]): void => {
    paths.push(path);
    if (typeof value === 'object' && value !== null)
      for (const [key, inner] of Object.entries(value)) walk(inner, [...path, key]);
  };
  walk(JSON.parse(JSON.stringify(good)), []);
  const replaced = (value: unknown, path: string[], by: unknown): unknown => {
    const [key, ...rest] = path;
    if (key === undefined) return by;
    const copy: Loose = Array.isArray(value) ? ([...value] as unknown as Loose) : { ...(value as Loose) };
    copy[key] = replaced(copy[key], rest, by);
    return copy;
  };
  const words = fc.constantFrom(
    '',
    'rod',
    'rod.clearance',
    '__proto__',
    'toString',
    '1 thou',
    '{rod}',
    '}{',
    'rod.*',
  );
  fc.assert(
    fc.property(fc.constantFrom(...paths), fc.oneof(words, fc.jsonValue()), (path, by) => {
      const read = readSheet(replaced(good, path, by));
      if (!read.ok) for (const issue of read.issues) expect(issue.message.length).toBeGreaterThan(10);
    }),
    { numRuns: 500 },
  );
});
