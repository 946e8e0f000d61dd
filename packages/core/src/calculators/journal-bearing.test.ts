import { expect, it } from 'vitest';
import { answered } from '../catalogue/answered.ts';
import { calculatorNamed } from '../catalogue/catalogue.ts';

const GIVEN = {
  diameter: '50 mm',
  length: '25 mm',
  radial_clearance: '25 um',
  speed: '2000 rpm',
  dynamic_viscosity: '10 mPa.s',
};

function ask(input: Record<string, unknown>) {
  const calculator = calculatorNamed('journal-bearing');
  if (!calculator.ok) throw new Error('missing');
  return answered(calculator.value, { ...GIVEN, ...input }, { bareNumbersAreSi: false });
}

const codes = (input: Record<string, unknown>): string[] => {
  const answer = ask(input);
  return 'issues' in answer
    ? answer.issues.map(({ code, at }) => `${code} ${at}`)
    : answer.cautions.map((c) => c.code);
};

it('cautions where a steady film is thinner than the guide, and where it is all but gone', () => {
  // 0.0002 in + 0.00004 × 50 mm is 7.08 μm.
  expect(codes({ eccentricity_ratio: 0.7 })).toEqual([]);
  expect(codes({ eccentricity_ratio: 0.72 })).toEqual(['journal-bearing/under-guide']);
  expect(codes({ eccentricity_ratio: 0.97 })).toEqual(['journal-bearing/thin-film']);
});

it('asks for what a supply needs, and refuses what it does not have', () => {
  const load = '500 N';
  expect(codes({ load, supply: 'hole' })).toEqual([
    'journal-bearing/missing supply_pressure',
    'journal-bearing/missing hole_diameter',
  ]);
  expect(codes({ load, supply_pressure: '2 bar' })).toEqual(['journal-bearing/not-used supply_pressure']);
  expect(codes({ load, supply: 'hole', supply_pressure: '2 bar', hole_diameter: '20 mm' })).toEqual([
    'journal-bearing/shape hole_diameter',
  ]);
  expect(codes({ load, length: '1 m' })).toEqual(['journal-bearing/shape length']);
});

it('says so when no film carries the load or the supply outweighs it', () => {
  expect(codes({ load: '1e9 N' })).toEqual(['journal-bearing/no-film load']);
  const hole = { supply: 'hole', hole_diameter: '6 mm', load: '500 N' };
  expect(codes({ ...hole, supply_pressure: '900 bar' })).toEqual([
    'journal-bearing/supply-pressure supply_pressure',
  ]);
});

it('feeds a bearing through a hole: what goes in comes out, and less than a flooded bearing would take', () => {
  const flooded = ask({ load: '500 N' });
  const fed = ask({ load: '500 N', supply: 'hole', supply_pressure: '0.5 bar', hole_diameter: '5 mm' });
  if ('issues' in flooded || 'issues' in fed) throw new Error('no answer');
  const value = (answer: typeof fed, key: string): number => Number(answer.results[key]?.value);
  expect(value(fed, 'side_flow') / value(fed, 'feed_flow')).toBeCloseTo(1, 4);
  expect(value(fed, 'side_flow')).toBeLessThan(value(flooded, 'side_flow'));
  expect(value(fed, 'supply_angle')).toBeCloseTo(Math.PI);
  // S by hand: (r/c)² μ N/P with P = 500/(0.05 · 0.025).
  expect(value(fed, 'sommerfeld_number')).toBeCloseTo((1000 ** 2 * 0.01 * (2000 / 60)) / 400_000, 3);
});
