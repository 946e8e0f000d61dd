import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();
const PSI = 6894.757;

interface StairAnswer {
  readonly as_new: number;
  readonly as_measured: number;
  readonly now: number;
  readonly lifted: readonly string[];
  readonly exact: boolean;
  readonly treads: readonly {
    repair: string;
    share: number;
    gain: number;
    with_this_repair_too: number;
    standard_uncertainty: number;
    lifted: boolean;
  }[];
}
interface Answer {
  readonly pressures: readonly { speed: number; temperature: number; measured: { value: number } }[];
  readonly stair: StairAnswer;
  readonly map: { speeds: number[]; temperatures: number[]; pressures: number[][] };
  readonly narrowing: {
    pressure: number;
    standard_uncertainty: number;
    causes: { share: number }[];
    readings: {
      characteristic: string;
      standard_uncertainty_without: number;
      readings: { entry: string }[];
      finest?: { instrument: string; standard_uncertainty: number };
    }[];
  };
  readonly circuit: {
    pressures: Record<string, number>;
    delivered: number;
    swept: number;
    back_through_the_pump: number;
    flows: { name: string; members: string[]; flow: number; to?: string }[];
  };
}

let hot: StairAnswer;
const ask = (...words: string[]) => desk.json<Answer>('oil', 'linnet', ...words);
const tread = (stair: StairAnswer, word: RegExp) => stair.treads.find(({ repair }) => word.test(repair))!;
const share = (stair: StairAnswer, word: RegExp) => tread(stair, word).share / PSI;

beforeAll(async () => {
  await desk.good('new', '--demo', 'linnet');
  hot = (await ask('--stair')).stair;
});
afterAll(() => desk.clear());

describe('the pressure stair of the demo engine', () => {
  it('goes from as new down to as found at hot idle, and its treads add up', () => {
    expect(hot.exact).toBe(true);
    expect(hot.as_new / PSI).toBeCloseTo(30.5, 1);
    expect(hot.now / PSI).toBeCloseTo(7.9, 1);
    const sum = hot.treads.reduce((s, one) => s + one.share, 0);
    expect(sum).toBeCloseTo(hot.as_new - hot.now, 1);
  });

  it('is carried nearly whole by the pump’s ends, its radial clearance and the mains; rods and cam a little', () => {
    const heavy = [/end clearance/i, /radial clearance/i, /main bearing/i].map((word) => share(hot, word));
    const light = [/rod bearing/i, /cam bush/i, /rocker/i].map((word) => share(hot, word));
    const lost = (hot.as_new - hot.now) / PSI;
    expect(heavy.reduce((a, b) => a + b, 0) / lost).toBeGreaterThan(0.8);
    expect(Math.min(...heavy)).toBeGreaterThan(2 * Math.max(...light));
  });

  it('gives the relief spring nothing when hot and a little when cold', async () => {
    expect(Math.abs(share(hot, /relief spring/i))).toBeLessThan(0.01);
    const { stair } = await ask('--stair', '--speed', '600rpm', '--temperature', '20degC');
    expect(share(stair, /relief spring/i)).toBeGreaterThan(1);
    expect(share(stair, /relief spring/i)).toBeLessThan(10);
  });

  it('shows each single repair beside its share, and brings less than it', () => {
    const alone = (word: RegExp) => tread(hot, word).with_this_repair_too / PSI;
    expect(alone(/end clearance/i)).toBeCloseTo(9.7, 1);
    expect(alone(/radial clearance/i)).toBeCloseTo(9.8, 1);
    expect(alone(/main bearing/i)).toBeCloseTo(9.9, 1);
    for (const { gain, share: fair } of hot.treads) expect(gain).toBeLessThanOrEqual(fair + 1);
  });

  it('moves when treads are lifted by part of their names: pump and mains together reach the minimum', async () => {
    const { stair } = await ask('--lift', 'pump end', 'PUMP RADIAL', 'main bearing');
    expect(stair.lifted).toHaveLength(3);
    expect(stair.as_measured / PSI).toBeCloseTo(7.9, 1);
    expect(stair.now / PSI).toBeGreaterThan(15);
    expect(tread(stair, /main bearing/i)).toMatchObject({ lifted: true });
    expect(share(stair, /main bearing/i)).toBeCloseTo(0, 3);
    const sum = stair.treads.reduce((s, one) => s + one.share, 0);
    expect(sum).toBeCloseTo(stair.as_new - stair.now, 1);
    const { out } = await desk.good('oil', 'linnet', '--lift', 'pump end', 'pump radial', 'main bearing');
    expect(out.replace(/\s+/g, ' ')).toContain('The sheet wants at least 15 psi: ○ IN.');
  });

  it('is said in words whose figures add up as printed', async () => {
    const { out } = await desk.good('oil', 'linnet', '--stair');
    const said =
      /Of the ([\d.]+) psi lost, these carry by fair share over every order of repair: ([\s\S]*?)\.\n/.exec(
        out,
      )!;
    const figures = [...said[2]!.replace(/\s+/g, ' ').matchAll(/ (\d+\.\d) ±/g)].map(([, figure]) =>
      Number(figure),
    );
    expect(figures).toHaveLength(6);
    expect(figures.reduce((a, b) => a + b, 0)).toBeCloseTo(Number(said[1]), 6);
    expect(Number(said[1])).toBeCloseTo(22.6, 6);
    expect(out).toMatch(/Relief spring +0\.0 /);
    expect(out).toContain('are assumed, and');
  });

  it('refuses a repair it does not know, and one that could be several', async () => {
    expect(await desk.refused('oil', 'linnet', '--lift', 'gearbox')).toEqual(['oil/unknown-repair']);
    const { err } = await desk.fettle(['oil', 'linnet', '--lift', 'pump']);
    expect(err).toMatch(/"pump" could be Pump end clearance.* or Pump radial clearance/);
  });
});

describe('the map of the demo engine', () => {
  it('holds the sheet’s conditions at the pressures predicted for them', async () => {
    const { map, pressures } = await ask('--map');
    for (const { speed, temperature, measured } of pressures) {
      const s = map.speeds.findIndex((one) => Math.abs(one - speed) < 1e-6);
      const t = map.temperatures.findIndex((one) => Math.abs(one - temperature) < 1e-6);
      expect(map.pressures[t]![s]! / measured.value).toBeCloseTo(1, 5);
    }
  });

  it('shows that SAE 40 raises hot idle by about a quarter and leaves it far under the minimum', async () => {
    const at = ['--map', '--speed', '600rpm', '--temperature', '93degC'];
    const [thin, thick] = [await ask(...at), await ask(...at, '--oil', 'sae40')].map(
      ({ map }) => map.pressures[0]![0]! / PSI,
    );
    expect(thick! / thin!).toBeGreaterThan(1.2);
    expect(thick! / thin!).toBeLessThan(1.3);
    expect(thick!).toBeLessThan(11);
    const { out } = await desk.good('oil', 'linnet', ...at, '--oil', 'sae40');
    expect(out).toMatch(/93 °C │ +9\.8▾/);
  });
});

describe('what would narrow the band of the demo engine', () => {
  it('ranks readings by entry, and none of them makes the band vanish', async () => {
    const { narrowing } = await ask('--narrow');
    const u = narrowing.standard_uncertainty;
    expect((2 * u) / PSI).toBeCloseTo(0.8, 1);
    expect(narrowing.causes.reduce((sum, one) => sum + one.share, 0)).toBeCloseTo(1, 9);
    const left = narrowing.readings.map((one) => one.standard_uncertainty_without);
    expect(left).toEqual([...left].sort((a, b) => a - b));
    expect(left[0]!).toBeLessThan(u);
    expect(left[0]!).toBeGreaterThan(u / 2);
    const log = await desk.json<{ id: string; kind: string }[]>('log', 'linnet', '--kind', 'reading');
    const ids = new Set(log.map(({ id }) => id));
    for (const { readings } of narrowing.readings)
      for (const { entry } of readings) expect(ids.has(entry)).toBe(true);
  });

  it('names the dial bore gauge for the pump body, which was read with the coarser telescoping gauge', async () => {
    const { narrowing } = await ask('--narrow');
    const body = narrowing.readings.find(({ characteristic }) => characteristic === 'pump.body-bore')!;
    expect(body.finest?.instrument).toBe('dial-bore');
    expect(body.finest!.standard_uncertainty).toBeLessThan(narrowing.standard_uncertainty);
    expect(body.finest!.standard_uncertainty).toBeGreaterThan(body.standard_uncertainty_without);
  });
});

describe('the circuit of the demo engine', () => {
  it('loses a third of what the pump sweeps inside the pump itself, and balances', async () => {
    const { circuit } = await ask('--flows');
    expect(circuit.back_through_the_pump / circuit.swept).toBeGreaterThan(0.25);
    const drained = circuit.flows
      .filter(({ to }) => to === undefined)
      .reduce((sum, { flow }) => sum + flow, 0);
    expect(drained / circuit.delivered).toBeCloseTo(1, 5);
    expect(circuit.flows.find(({ name }) => name === 'main')?.members).toEqual([
      'main-1',
      'main-2',
      'main-3',
    ]);
    expect(circuit.pressures.gallery! / PSI).toBeCloseTo(7.9, 1);
    const { out } = await desk.good('oil', 'linnet', '--flows');
    expect(out).toMatch(/gallery, where the gauge sits: 7\.9 psi/);
    expect(out).toMatch(/main × 3 /);
  });
});

it('without such a wish the command says what it always said', async () => {
  const { out } = await desk.good('oil', 'linnet');
  expect(out).toContain('Each single repair');
  expect(out).not.toContain('Pressure stair');
});

it('the stair can be asked where its shares come from: formula, source, inputs and their entries', async () => {
  const why = await desk.json<{
    as_new: number;
    now: number;
    source: string;
    treads: { repair: string; share: number; first: number; last: number; inputs: { entries: string[] }[] }[];
  }>('why', 'linnet', 'stair');
  const together = why.treads.reduce((sum, { share }) => sum + share, 0);
  expect(together).toBeCloseTo(why.as_new - why.now, 3);
  for (const { share, first, last } of why.treads) {
    // An average over every order lies between made first and made last where one repair only helps another.
    expect(share).toBeGreaterThanOrEqual(first - 1);
    expect(share).toBeLessThanOrEqual(last + 1);
  }
  expect(why.treads[0]!.inputs[0]!.entries.length).toBeGreaterThan(1);
  const { out } = await desk.good('why', 'linnet', 'stair');
  expect(out).toContain('L. S. Shapley, 1953');
});
