import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();

interface Film {
  readonly bearing: string;
  readonly measured: boolean;
  readonly load?: { mean: number; greatest: number; greatest_at: number };
  readonly assumed: { film_rise: number; eccentricity_ratio: number };
  readonly computed: { film_rise: number; eccentricity_ratio: number; heat_carried: boolean };
  readonly least_film?: { value: number; settled: boolean };
}
interface Films {
  readonly conditions: {
    speed: number;
    load: number;
    gauge: { assumed: number; computed: number };
    bearings: Film[];
    cautions: { code: string }[];
  }[];
  readonly crank: { cylinder: string; figures: { figure: string; value: number; from: string }[] }[];
}

let films: Films;
const bearing = (condition: number, name: string): Film =>
  films.conditions[condition]!.bearings.find((one) => one.bearing === name)!;

beforeAll(async () => {
  await desk.good('new', '--demo', 'linnet');
  films = await desk.json<Films>('film', 'linnet');
});
afterAll(() => desk.clear());

it('gives each big end and main its load, its eccentricity, its film temperature and its least film', () => {
  expect(films.conditions).toHaveLength(4);
  for (const { bearings } of films.conditions) {
    const loaded = bearings.filter(({ load }) => load);
    expect(loaded.map((one) => one.bearing).sort()).toEqual([
      ...['1', '2', '3'].map((n) => `main-${n}`),
      ...['1', '2', '3', '4'].map((n) => `rod-${n}`),
    ]);
    for (const { computed, least_film: least, measured } of loaded) {
      expect(measured).toBe(true);
      expect(computed.heat_carried).toBe(true);
      expect(least?.settled).toBe(true);
      // Common practice, no source: some micrometres at the least, and far inside the clearance.
      expect(least!.value).toBeGreaterThan(1e-6);
      expect(least!.value).toBeLessThan(20e-6);
    }
  }
});

it('carries at 3000 rpm and 360° the inertia of piston and rod, by hand', () => {
  // Piston 115 kg/m² · π/4 (3.5 in)² = 0.7138 kg, small end 812.4 − 561.0 g, big end 561.0 g;
  // r ω² = 0.056769 m · (314.16/s)² = 5602.9 m/s², λ = 4.470/2/7.750 = 0.28839, no pressure.
  // (0.7138 + 0.2514) · 5602.9 · 1.28839 + 0.5610 · 5602.9 = 10 111 N
  const { load } = bearing(3, 'rod-1');
  expect(Math.abs(load!.greatest - 10_111)).toBeLessThan(5);
  expect((load!.greatest_at * 180) / Math.PI).toBeCloseTo(360, 0);
});

it('presses at 1000 rpm with the open throttle hardest a little after the top, by far more than by inertia', () => {
  const { load } = bearing(1, 'rod-1');
  expect((load!.greatest_at * 180) / Math.PI).toBeGreaterThan(10);
  expect((load!.greatest_at * 180) / Math.PI).toBeLessThan(30);
  expect(load!.greatest).toBeGreaterThan(15_000);
});

it('shows beside the assumed films what the computed ones make of the gauge pressure', async () => {
  const oil = await desk.json<{ pressures: { measured: { value: number } }[] }>('oil', 'linnet');
  for (const [i, { gauge }] of films.conditions.entries()) {
    expect(gauge.assumed / oil.pressures[i]!.measured.value).toBeCloseTo(1, 6);
    expect(gauge.computed).not.toBe(gauge.assumed);
    expect(Math.abs(gauge.computed / gauge.assumed - 1)).toBeLessThan(0.05);
  }
  // At idle the worn bearings let so much oil through that their films stay nearly as cool as the sump.
  expect(bearing(0, 'main-1').assumed.film_rise).toBe(12);
  expect(bearing(0, 'main-1').computed.film_rise).toBeLessThan(3);
  expect(bearing(3, 'main-1').computed.film_rise).toBeGreaterThan(bearing(0, 'main-1').computed.film_rise);
});

it('says of each figure whether it was weighed, printed, or stands in for what nobody knows', async () => {
  const from = (cylinder: number, figure: string) =>
    films.crank[cylinder]!.figures.find((one) => one.figure === figure)!;
  expect(from(0, 'rod_mass')).toMatchObject({ from: 'measured', value: expect.closeTo(0.8124, 6) });
  expect(from(3, 'rod_mass')).toMatchObject({ from: 'measured', value: expect.closeTo(0.8152, 6) });
  expect(from(0, 'stroke').from).toBe('sheet');
  expect(from(0, 'piston_mass').from).toBe('assumed');
  expect(from(0, 'throw_mass').from).toBe('assumed');
  const { out } = await desk.good('film', 'linnet');
  expect(out).toMatch(/piston, rings and pin +713\.8 g +not known: STANDS IN/);
  expect(out).toMatch(/Stands in for piston, rings and pin: 115 kg for each m² of piston/);
  expect(out).toContain('None of this was measured here');
  expect(out).toMatch(/cam-1 +not known/);
});

it('cautions that steady film limits do not judge a cyclic minimum, and of no bearing that its length is beyond the model', () => {
  for (const { cautions } of films.conditions) {
    const codes = cautions.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(['film/cyclic-minimum', 'film/shares-of-mains']));
    expect(codes.filter((code) => code === 'film/short-bearing' || code === 'film/beyond-solved')).toEqual(
      [],
    );
  }
});

it('goes by a piston once it is weighed', async () => {
  const other = new CommandDesk(desk.data);
  await other.good('read', 'linnet', 'piston.weight', '640g', '--at', '1', '--with', 'scale');
  const weighed = await other.json<Films>('film', 'linnet', '--speed', '3000rpm');
  const piston = weighed.crank[0]!.figures.find(({ figure }) => figure === 'piston_mass')!;
  expect(piston).toMatchObject({ from: 'measured', value: expect.closeTo(0.64, 9) });
  const lighter = weighed.conditions[0]!.bearings.find((one) => one.bearing === 'rod-1')!;
  expect(lighter.load!.greatest).toBeLessThan(bearing(3, 'rod-1').load!.greatest);
  other.clear();
});

it('takes less charge, other speeds, a hotter sump and another oil', async () => {
  const at = async (...words: string[]) =>
    (await desk.json<Films>('film', 'linnet', '--speed', '2000rpm', ...words)).conditions[0]!;
  const rod = ({ bearings }: Films['conditions'][number]) => bearings.find((one) => one.bearing === 'rod-1')!;
  const full = await at();
  const part = await at('--load', '0.5');
  expect(part.load).toBe(0.5);
  expect(rod(part).load!.greatest).toBeLessThan(rod(full).load!.greatest);
  expect(rod(await at('--temperature', '120degC')).least_film!.value).toBeLessThan(
    rod(full).least_film!.value,
  );
  expect(rod(await at('--oil', 'sae40')).least_film!.value).toBeGreaterThan(rod(full).least_film!.value);
});

it('draws the path and its load', async () => {
  const file = desk.file('rod.svg');
  const said = await desk.good(
    'film',
    'linnet',
    '--speed',
    '3000rpm',
    '--bearing',
    'rod-2',
    '--picture',
    file,
  );
  expect(said.out).toContain('rod-2');
  const drawn = readFileSync(file, 'utf8');
  expect(drawn).toMatch(/^<svg .*data-mark="clearance".*least film [\d.]+ ±[\d.]+ (µ|μ)m at \d+°/s);
  expect(drawn).not.toMatch(/NaN|undefined/);
});

it('draws the film of a bearing under its mean load, which carries what it is told to', async () => {
  for (const bearing of ['rod-2', 'main-1']) {
    const file = desk.file(`${bearing}.svg`);
    const said = await desk.good(
      'film',
      'linnet',
      '--speed',
      '3000rpm',
      '--bearing',
      bearing,
      '--unrolled',
      file,
    );
    expect(said.out).toContain(`The film of ${bearing} is drawn`);
    const drawn = readFileSync(file, 'utf8');
    expect(drawn).toMatch(/peak [\d.]+ MPa.*least film [\d.]+ (µ|μ)m/s);
    expect(drawn).not.toMatch(/NaN|undefined/);
    // The mean pressure on the bearing's own shadow is a few megapascals; a film's peak is some times that.
    const [, load] = /steady load of ([\d.]+) kN/.exec(drawn)!;
    const [, peak] = /peak ([\d.]+) MPa/.exec(drawn)!;
    const shadow = bearing === 'rod-2' ? 2.125 * 1.25 : 2.5 * 1.2;
    const mean = Number(load) / (shadow * 0.0254 ** 2) / 1000;
    expect(Number(peak) / mean).toBeGreaterThan(1.5);
    expect(Number(peak) / mean).toBeLessThan(15);
  }
  expect(
    await desk.refused('film', 'linnet', '--unrolled', desk.file('x.svg'), '--bearing', 'cam-1'),
  ).toEqual(['film/nothing-to-draw']);
});

it('refuses a load, a bearing and conditions that cannot be', async () => {
  expect(await desk.refused('film', 'linnet', '--load', '3')).toEqual(['number/out-of-range']);
  expect(await desk.refused('film', 'linnet', '--load', 'full')).toEqual(['number/out-of-range']);
  expect(await desk.refused('film', 'linnet', '--speed', '0rpm')).toEqual(['number/out-of-range']);
  expect(await desk.refused('film', 'linnet', '--picture', desk.file('x.svg'), '--bearing', 'cam-1')).toEqual(
    ['film/nothing-to-draw'],
  );
  expect(await desk.refused('film', 'linnet', '--picture', '/no/such/folder/x.svg')).toEqual([
    'file/cannot-write',
  ]);
});
