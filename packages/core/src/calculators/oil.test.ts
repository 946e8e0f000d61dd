import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { answered } from '../catalogue/answered.ts';
import { SOURCES } from '../sources/index.ts';
import { OIL_CALCULATORS } from './oil.ts';

type Input = Readonly<Record<string, unknown>>;

const named = (name: string) => OIL_CALCULATORS.find((c) => c.name === name)!;

function ask(name: string, input: Input) {
  const answer = answered(named(name), input, { bareNumbersAreSi: true });
  if ('issues' in answer) throw new Error(JSON.stringify(answer.issues));
  return { ...answer, value: (key: string) => answer.results[key]!.value as number };
}

function issuesOf(name: string, input: Input): string[] {
  const answer = answered(named(name), input, { bareNumbersAreSi: true });
  return 'issues' in answer ? answer.issues.map((i) => `${i.code} ${i.at}`) : [];
}

const codes = (answer: { cautions: readonly { code: string }[] }) => answer.cautions.map((c) => c.code);

for (const calculator of OIL_CALCULATORS) {
  it(`${calculator.name} answers its own example, names sources that exist and gives every sure output`, () => {
    const answer = ask(calculator.name, calculator.example);
    for (const key of calculator.sources) expect(Object.keys(SOURCES)).toContain(key);
    for (const [key, field] of Object.entries(calculator.output))
      if (!field.optional) expect(Object.keys(answer.results)).toContain(key);
  });
}

it('an oil keeps its two printed viscosities, and says which density it took', () => {
  const sae30 = { kv40: '93 mm2/s', kv100: '10.8 mm2/s' };
  const hot = ask('oil-viscosity', { ...sae30, temperature: '100 degC' });
  expect(hot.value('kinematic_viscosity') / 10.8e-6).toBeCloseTo(1, 9);
  expect(hot.results.density15).toEqual({ value: 880, unit: 'kg/m3' });
  expect(hot.value('density')).toBeCloseTo(825.79, 1);
  expect(hot.value('dynamic_viscosity')).toBeCloseTo(
    hot.value('kinematic_viscosity') * hot.value('density'),
    12,
  );
  expect(codes(ask('oil-viscosity', { ...sae30, temperature: '160 degC' }))).toEqual(['oil/outside-line']);
  expect(issuesOf('oil-viscosity', { kv40: '10 mm2/s', kv100: '90 mm2/s', temperature: '50 degC' })).toEqual([
    'oil/viscosity-order kv100',
  ]);
  expect(issuesOf('oil-viscosity', { kv40: '90 mm2/s', kv100: '1 mm2/s', temperature: '290 degC' })).toEqual([
    'oil/off-the-line temperature',
  ]);
});

it('the index of the first example of its standard is 92 when rounded, and is not rounded', () => {
  const index = ask('viscosity-index', { kv40: '73.30 mm2/s', kv100: '8.86 mm2/s' }).value('viscosity_index');
  expect(Math.round(index)).toBe(92);
  expect(Number.isInteger(index)).toBe(false);
  expect(issuesOf('viscosity-index', { kv40: '5 mm2/s', kv100: '1.9 mm2/s' })).toEqual([
    'input/out-of-range kv100',
  ]);
  expect(issuesOf('viscosity-index', { kv40: '5 mm2/s', kv100: '2 mm2/s' })).toEqual([]);
});

it('grades are the names of the standard', () => {
  const sae30 = ask('oil-grade', { kv100: '10.8 mm2/s' });
  expect(sae30.results.grades).toEqual({ value: ['30'] });
  expect(sae30.results.w_grades).toEqual({ value: ['0W', '5W', '10W', '15W', '20W', '25W'] });
  const light40 = ask('oil-grade', { kv100: '14 mm2/s', hths: '3.6 mPa.s' });
  expect(light40.results.grades).toEqual({ value: ['40'] });
  expect(codes(light40)).toEqual(['oil-grade/heavy-40']);
  expect(codes(ask('oil-grade', { kv100: '14 mm2/s', hths: '3.7 mPa.s' }))).toEqual([]);
  expect(ask('oil-grade', { kv100: '14 mm2/s', hths: '3.4 mPa.s' }).results.grades).toEqual({ value: [] });
});

it('a piston 25 mm across with 5 µm all round leaks 57.6 mm³/s at 19 MPa', () => {
  const flow = ask('annulus-leak', named('annulus-leak').example).value('flow');
  expect(Math.abs(flow * 1e9 - 57.6)).toBeLessThan(0.1);
});

it('a hole that goes round feeds the mean of what it feeds at every gap', () => {
  const base = { ...named('hole-feed').example, eccentricity_ratio: 0.7 };
  const widest = ask('hole-feed', { ...base, hole: 'widest' });
  const rotating = ask('hole-feed', { ...base, hole: 'rotating' });
  expect(rotating.value('flow') / widest.value('flow')).toBeCloseTo((1 + 1.5 * 0.49) / 1.7 ** 3, 12);
  const { hole: _, ...unsaid } = base as Input & { hole?: string };
  expect(ask('hole-feed', unsaid).results.hole).toEqual({ value: 'widest' });
  expect(issuesOf('hole-feed', { ...base, hole_diameter: '2 in' })).toEqual([
    'hole-feed/hole-too-wide hole_diameter',
  ]);
});

it('a pump slips only when every key of the slip is there', () => {
  const gears = named('gear-pump').example;
  const bare = ask('gear-pump', gears);
  expect(Object.keys(bare.results)).toEqual(['displacement']);
  const ends = { end_clearance: '3 thou', face_ratio: 2 };
  const tips = { tip_clearance: '3 thou', tip_land: '.045 in', tips_in_series: 3 };
  const running = { pressure: '30 psi', speed: '300 rpm', dynamic_viscosity: '10 mPa.s' };
  expect(ask('gear-pump', { ...gears, ...ends, pressure: '30 psi' }).results.end_slip).toBeUndefined();
  const all = ask('gear-pump', { ...gears, ...ends, ...tips, ...running });
  const h = 3 * 25.4e-6;
  const p = 30 * 6894.757293168;
  // By hand: 2·2·h³·p/(12·0.01), and V n less both slips.
  expect(all.value('end_slip') / ((4 * h ** 3 * p) / 0.12)).toBeCloseTo(1, 9);
  expect(
    all.value('tip_slip') / ((2 * 0.752 * 0.0254 * h ** 3 * p) / (0.12 * 0.045 * 0.0254 * 3)),
  ).toBeCloseTo(1, 9);
  expect(all.value('ideal_flow')).toBeCloseTo(all.value('displacement') * 5, 12);
  const delivery = all.value('ideal_flow') - all.value('end_slip') - all.value('tip_slip');
  expect(all.value('delivery')).toBeCloseTo(delivery, 15);
  expect(all.value('volumetric_efficiency')).toBeCloseTo(delivery / all.value('ideal_flow'), 12);
  expect(all.results.face_split).toEqual({ value: 0, unit: '1' });
  expect(issuesOf('gear-pump', { ...gears, end_clearance: '3 thou' })).toEqual(['input/missing face_ratio']);
  expect(issuesOf('gear-pump', { ...gears, module: '3 mm' })).toEqual(['input/conflict diametral_pitch']);
  expect(issuesOf('gear-pump', { ...gears, teeth: 8.5 })).toEqual(['gear-pump/teeth teeth']);
  expect(issuesOf('gear-pump', { ...gears, outside_diameter: '.9 in' })).toEqual([
    'gear-pump/outside-diameter outside_diameter',
  ]);
});

it('a pump may be given by module, diametral pitch or centre distance, alike for standard gears', () => {
  const { diametral_pitch: _, ...gears } = named('gear-pump').example as Input & { diametral_pitch: number };
  const by = (how: Input) => ask('gear-pump', { ...gears, ...how }).value('displacement');
  expect(by({ module: '3.175 mm' }) / by({ diametral_pitch: 8 })).toBeCloseTo(1, 12);
  expect(by({ centre_distance: '1 in' }) / by({ diametral_pitch: 8 })).toBeCloseTo(1, 12);
});

it('a gallery at Re 451 is laminar; between 2300 and 4000 the answer is doubted', () => {
  const example = named('pipe-loss').example;
  const laminar = ask('pipe-loss', example);
  expect(laminar.results.regime).toEqual({ value: 'laminar' });
  expect(laminar.value('pressure_loss')).toBeCloseTo(397.89, 1);
  expect(laminar.results.roughness).toEqual({ value: 0, unit: 'm' });
  const doubtful = ask('pipe-loss', { ...example, flow: '14 L/min' });
  expect(doubtful.results.regime).toEqual({ value: 'turbulent' });
  expect(codes(doubtful)).toEqual(['pipe-loss/doubtful-regime']);
  expect(codes(ask('pipe-loss', { ...example, flow: '20 L/min' }))).toEqual([]);
});

it('a relief valve opens where spring force equals pressure times area, however the force is given', () => {
  const valve = { plunger_diameter: '.5 in', spring_rate: '10.75 lbf/in' };
  const byForce = ask('relief-valve', { ...valve, preload: '8.84 lbf' });
  expect(byForce.value('cracking_pressure') / 6894.757293168).toBeCloseTo(45.02, 2);
  const byLengths = ask('relief-valve', { ...valve, free_length: '2.382 in', installed_length: '1.560 in' });
  expect(byLengths.value('preload') / 4.4482216152605).toBeCloseTo(8.8365, 3);
  expect(issuesOf('relief-valve', valve)).toEqual(['input/missing preload']);
  expect(issuesOf('relief-valve', { ...valve, free_length: '1 in', installed_length: '2 in' })).toEqual([
    'relief-valve/slack-spring installed_length',
  ]);
});

it('the relief spring of the drawing makes 10.75 lbf/in and goes solid at .611', () => {
  const spring = ask('coil-spring', named('coil-spring').example);
  expect((spring.value('rate') * 0.0254) / 4.4482216152605).toBeCloseTo(10.75, 2);
  expect(spring.value('solid_length') / 0.0254).toBeCloseTo(0.611, 6);
  expect(spring.value('loaded_length') / 0.0254).toBeCloseTo(1.56, 2);
  // Seven coil diameters long: it needs its bore to keep it straight.
  expect(codes(spring)).toEqual(['coil-spring/buckles']);
  expect(codes(ask('coil-spring', { ...named('coil-spring').example, load: '30 lbf' }))).toContain(
    'coil-spring/solid',
  );
});

it('the network calculator takes the reference file with only speed and temperature to give', () => {
  const file = new URL('../../../../conformance/networks/six-cylinder-reference.json', import.meta.url);
  const network = JSON.parse(readFileSync(file, 'utf8')) as Input;
  const answer = ask('oil-network', { ...network, speed: '2000 rpm', temperature: '90 degC' });
  expect(Math.abs(answer.value('gauge_pressure') - 3.7355e5)).toBeLessThan(5);
  expect(answer.results.pressures!.value).toHaveProperty('H7');
  expect(issuesOf('oil-network', network)).toEqual(['input/missing speed', 'input/missing temperature']);
});

it('a fault in a network is said with its place', () => {
  const example = named('oil-network').example as { elements: Record<string, unknown>[] };
  const with3 = (change: Input) => ({
    ...example,
    elements: example.elements.map((e, i) => (i === 1 ? { ...e, ...change } : e)),
  });
  expect(issuesOf('oil-network', with3({ radial_clearance: '1' }))).toEqual([
    'unit/missing /elements/1/radial_clearance',
  ]);
  expect(issuesOf('oil-network', with3({ law: 'magic' }))).toEqual(['network/unknown-law /elements/1/law']);
  expect(issuesOf('oil-network', { ...example, fluid: { kv40: 1 } })).toEqual(['network/fluid fluid']);
  expect(issuesOf('oil-network', { ...example, elements: [] })).toEqual(['input/wrong-type elements']);
});
