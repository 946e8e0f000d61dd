import { expect, it } from 'vitest';
import type { Answer } from '../catalogue/calculator.ts';
import { MECHANICS_SOURCES } from '../sources/mechanics.ts';
import { MECHANICS_CALCULATORS } from './mechanics.ts';

/** `compute` as the catalogue calls it: SI in, SI out. */
function answered(name: string, input: Record<string, unknown>) {
  const found = MECHANICS_CALCULATORS.find((calculator) => calculator.name === name);
  if (!found) throw new Error(name);
  const answer = (found.compute as (input: unknown) => Answer)(input);
  if ('issues' in answer)
    return { results: {} as Record<string, number>, codes: answer.issues.map((i) => i.code) };
  const results = answer.results as Record<string, number>;
  for (const [key, value] of Object.entries(results)) {
    expect(Object.keys(found.output), `${name}.${key}`).toContain(key);
    if (typeof value === 'number') expect(Number.isFinite(value), `${name}.${key}`).toBe(true);
  }
  return { results, codes: (answer.cautions ?? []).map((caution) => caution.code) };
}
const INCH = 0.0254;
const POUND_FOOT = 1.3558179483314;

it('every source named is listed', () => {
  for (const { sources } of MECHANICS_CALCULATORS) {
    for (const key of sources) expect(Object.keys(MECHANICS_SOURCES)).toContain(key);
  }
});

it('thread gives the basic sizes, and says what a bare inch size was taken for', () => {
  const written = answered('thread', { designation: '5/16-18 UNC' });
  expect(written.results.pitch_diameter! / INCH).toBeCloseTo(0.2764, 4);
  expect(written.results.stress_area! / INCH ** 2).toBeCloseTo(0.0524, 4);
  expect(written.codes).toEqual([]);
  expect(answered('thread', { designation: '5/16-18' }).codes).toEqual(['thread/series-not-written']);
  expect(answered('thread', { designation: '5/16-26' }).codes).toEqual(['thread/unknown-form']);
});

it('preload follows the short form with a grade, and cautions past proof', () => {
  const { results, codes } = answered('preload', {
    designation: '5/16-18 UNC',
    torque: 30 * POUND_FOOT,
    nut_factor: 0.2,
    grade: 'SAE 5',
  });
  expect(results.preload! / 4.4482216152605).toBeCloseTo(5760, 6);
  expect(results.proof_fraction).toBeCloseTo(1.293, 2);
  expect(results.von_mises_stress).toBeUndefined();
  expect(codes).toEqual(['preload/past-proof']);
});

it('preload follows the long form: M10x1.25 8.8, friction .12, 51 N·m pulls 31.6 kN at 0.9 of yield', () => {
  const { results, codes } = answered('preload', {
    designation: 'M10x1.25',
    torque: 50.6,
    thread_friction: 0.12,
    bearing_friction: 0.12,
    bearing_diameter: 0.012815,
    grade: 'ISO 8.8',
  });
  expect(results.preload! / 31600).toBeCloseTo(1, 1);
  expect(results.von_mises_stress! / (0.9 * 640e6)).toBeCloseTo(1, 1);
  expect(codes.length).toBeLessThanOrEqual(1);
});

it('preload without any friction is an issue', () => {
  expect(answered('preload', { designation: 'M8', torque: 20 }).codes).toEqual(['preload/no-friction']);
});

it('M8 in soft alloy at 8 mm strips before the bolt breaks, and says how deep it should be', () => {
  const { results } = answered('thread-strip', {
    designation: 'M8x1.25',
    engagement_length: 0.008,
    bolt_tensile: 800e6,
    nut_tensile: 200e6,
  });
  expect(results.bolt_load).toBeCloseTo(800e6 * 36.6e-6, -3);
  expect(results.nut_thread_load!).toBeLessThan(results.bolt_load!);
  expect(results.needed_engagement!).toBeGreaterThan(0.008);
});

it('at the needed engagement the weaker thread strips just as the bolt breaks', () => {
  for (const nut of [200e6, 1200e6]) {
    const input = { designation: '3/8-16', bolt_tensile: 827e6, nut_tensile: nut, engagement_length: 0.01 };
    const needed = answered('thread-strip', input).results.needed_engagement!;
    const { results } = answered('thread-strip', { ...input, engagement_length: needed });
    expect(Math.min(results.bolt_thread_load!, results.nut_thread_load!) / results.bolt_load!).toBeCloseTo(
      1,
      9,
    );
  }
});

it('wrench-adapter needs a lever and corrects nothing at a right angle', () => {
  const at = (angle: number, adapter = 0.1) =>
    answered('wrench-adapter', { torque: 40, wrench_length: 0.4, adapter_length: adapter, angle });
  expect(at(0).results.setting).toBeCloseTo(32, 12);
  expect(at(Math.PI / 2).results.setting).toBeCloseTo(40, 9);
  expect(at(Math.PI).results.setting).toBeCloseTo(53.3333, 3);
  expect(at(Math.PI, 0.4).codes).toEqual(['wrench-adapter/no-lever']);
});

it('interference-fit refuses sizes that do not nest and cautions past the elastic range', () => {
  const base = {
    bore: 0.05,
    interference: 40e-6,
    length: 0.04,
    hub_outside_diameter: 0.1,
    hub_modulus: 100e9,
    hub_poisson_ratio: 0.211,
    shaft_modulus: 207e9,
    shaft_poisson_ratio: 0.292,
    friction: 0.12,
    shaft_bore: 0,
  };
  expect(answered('interference-fit', base).results.assembly_force! / 1e3).toBeCloseTo(27.17, 1);
  expect(answered('interference-fit', { ...base, interference: 2e-4 }).codes).toEqual([
    'interference-fit/past-elastic',
  ]);
  expect(answered('interference-fit', { ...base, hub_outside_diameter: 0.05 }).codes).toEqual([
    'interference-fit/sizes',
  ]);
  expect(answered('interference-fit', { ...base, shaft_bore: 0.05 }).codes).toEqual([
    'interference-fit/sizes',
  ]);
});

it('cylinder gives 172.0 in³ for four of 3.500 by 4.470 and a ratio once the chamber is known', () => {
  const base = { bore: 3.5 * INCH, stroke: 4.47 * INCH, cylinders: 4 };
  const { results } = answered('cylinder', base);
  expect(results.displacement! / INCH ** 3).toBeCloseTo(172.0, 1);
  expect(results.compression_ratio).toBeUndefined();
  const chamber = results.swept_volume! / 5.8;
  expect(answered('cylinder', { ...base, chamber_volume: chamber }).results.compression_ratio).toBeCloseTo(
    6.8,
    9,
  );
  expect(answered('cylinder', { ...base, cylinders: 4.5 }).codes).toEqual(['cylinder/not-whole']);
  expect(answered('cylinder', { ...base, chamber_volume: 0 }).codes).toEqual(['cylinder/no-clearance']);
  expect(answered('cylinder', { ...base, dish_volume: 1e-6 }).codes).toEqual(['cylinder/no-chamber']);
});

it('piston-motion gives speed only when the speed is known, and refuses a rod that cannot turn', () => {
  const base = { stroke: 0.08, rod_length: 0.14, crank_angle: 1, pin_offset: 0 };
  expect(answered('piston-motion', base).results.velocity).toBeUndefined();
  expect(answered('piston-motion', { ...base, speed: 100 }).results.velocity).toBeGreaterThan(0);
  expect(answered('piston-motion', { ...base, rod_length: 0.04 }).codes).toEqual([
    'piston-motion/rod-too-short',
  ]);
});

it('end-seal, limits-and-fits and fastener-strength answer with their keys', () => {
  const seal = answered('end-seal', { mean_radius: 2.06 * INCH, stand_out: 0.06 * INCH });
  expect(seal.results.length! / INCH).toBeCloseTo(6.592, 3);
  const loose = { mean_radius: 0.05, stand_out: 0.001, free_thickness: 0.004, closed_thickness: 0.0039 };
  expect(answered('end-seal', loose).codes).toEqual(['end-seal/squeeze']);
  expect(answered('limits-and-fits', { size: 0.05, designation: 'g6' }).results).toEqual({
    lower_deviation: -25e-6,
    upper_deviation: -9e-6,
  });
  expect(answered('fastener-strength', { grade: 'ISO 8.8', diameter: 0.008 }).results).toMatchObject({
    proof_stress: 580e6,
    yield_stress: 640e6,
    tensile_stress: 800e6,
  });
});
