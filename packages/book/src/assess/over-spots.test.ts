import { inUnit, standardUncertainty } from '@fettle/core';
import { expect, it } from 'vitest';
import { readSheet } from '../sheet/read-sheet.ts';
import { Bench } from '../testing/bench.ts';
import { inches, tinySheet } from '../testing/tiny-sheet.ts';

const SPOTS = {
  '1': ['0 in', '0 in'],
  '2': ['4 in', '0 in'],
  '3': ['0 in', '3 in'],
  '4': ['4 in', '3 in'],
  '5': ['2 in', '1.5 in'],
};
const relation = {
  calculator: { name: 'plane-form', inputs: { points: { of: 'height', over: 'spot' } }, output: 'flatness' },
};
const sheet = (more: Readonly<Record<string, unknown>> = {}) => ({
  axes: { spot: Object.keys(SPOTS) },
  spots: { spot: SPOTS },
  positions: [{ id: 'head', name: 'Head' }],
  characteristics: [
    inches('height', { position: 'head', places: ['spot'] }),
    inches('flat', { position: 'head', limits: { new: { upper: '0.0040 in' } }, relation }),
  ],
  ...more,
});
const probed = (heights: readonly string[]) => {
  const bench = new Bench(sheet());
  bench.part('head', 'head');
  for (const [i, text] of heights.entries())
    bench.read('height', `${text} in`, { at: String(i + 1), instrument: 'depth' });
  return bench.judgement('flat');
};

it('a face is judged by the least zone of its heights, whatever the tilt and the zero', () => {
  const level = probed(['0', '0', '0', '0', '-0.0060']);
  const tilted = probed(['0.0100', '0.0300', '0.0130', '0.0330', '0.0155']);
  for (const { operand, status } of [level, tilted]) {
    if (operand.kind !== 'value') throw new Error('no value');
    // The middle lies .006 under the plane of the corners: in the second, their mean is .0215. Square to a tilted face
    // it is less by the cosine of its tilt, seven parts in a million.
    expect(inUnit(operand.q.value, 'in')).toBeCloseTo(0.006, 6);
    expect(status).toBe('out');
  }
});

it('what the instrument does alike at every spot drops out; its own share is weighed by what the zone hangs on', () => {
  const { operand } = probed(['0', '0', '0', '0', '-0.0060']);
  if (operand.kind !== 'value') throw new Error('no value');
  expect(
    operand.q.terms.filter(({ source, u }) => source.startsWith('instrument') && Math.abs(u) > 1e-15),
  ).toEqual([]);
  // U .0004, so u .0002, of which √½ is each reading's own: the middle weighs 1 against two opposite corners of ½.
  expect(inUnit(standardUncertainty(operand.q), 'in')).toBeCloseTo(
    0.0002 * Math.SQRT1_2 * Math.sqrt(1 + 2 * 0.25),
    9,
  );
});

it('a face probed in part can be out and cannot be in', () => {
  expect(probed(['0', '0', '0', '0.0200'])).toMatchObject({ status: 'out', operand: { kind: 'interval' } });
  const flat = probed(['0', '0', '0', '0']);
  expect(flat.status).not.toBe('in');
  expect(flat.missing.map(({ place }) => place)).toEqual([{ spot: '5' }]);
});

it('a sheet must say where each spot lies, in lengths, and ask plane-form for the flatness', () => {
  const codesOf = (more: Readonly<Record<string, unknown>>): string[] => {
    const read = readSheet({ ...tinySheet(sheet()).sheet, ...more });
    return read.ok ? [] : read.issues.map(({ code }) => code);
  };
  const { '5': _, ...four } = SPOTS;
  expect(codesOf({})).toEqual([]);
  expect(codesOf({ spots: { spot: four } })).toEqual(['sheet/spot-missing']);
  expect(codesOf({ spots: { spot: { ...SPOTS, '6': ['0 in', '0 in'] } } })).toEqual(['sheet/unknown-value']);
  expect(codesOf({ spots: { spot: SPOTS, corner: {} } })).toEqual(['sheet/unknown-axis']);
  expect(codesOf({ spots: { spot: { ...SPOTS, '1': ['0', '3 kg'] } } }).length).toBeGreaterThan(0);
  const otherwise = (calculator: object) => [
    inches('height', { position: 'head', places: ['spot'] }),
    inches('flat', { position: 'head', relation: { calculator } }),
  ];
  expect(
    codesOf({ characteristics: otherwise({ ...relation.calculator, output: 'least_squares_flatness' }) }),
  ).toEqual(['sheet/input-not-points']);
  expect(
    codesOf({
      characteristics: otherwise({
        ...relation.calculator,
        inputs: { points: { of: 'height', over: 'corner' } },
      }),
    }),
  ).toContain('sheet/unknown-axis');
});

it('what a spring’s load is taken at is a length', () => {
  const codesOf = (more: Readonly<Record<string, unknown>>): string[] => {
    const read = readSheet({ ...tinySheet(sheet()).sheet, characteristics: [inches('spring', more)] });
    return read.ok ? [] : read.issues.map(({ code }) => code);
  };
  expect(codesOf({ spring_length: 'free' })).toEqual([]);
  expect(codesOf({ spring_length: '1.7 in' })).toEqual(['sheet/spring-kind']);
  expect(codesOf({ spring_length: '1.7 in', kind: 'force', unit: 'lbf' })).toEqual([]);
  expect(codesOf({ spring_length: 'short', kind: 'force', unit: 'lbf' }).length).toBeGreaterThan(0);
});
