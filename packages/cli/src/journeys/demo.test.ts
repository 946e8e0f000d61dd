import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CheckJson, CommandDesk, nameOf } from '../testing/desk.ts';

const desk = new CommandDesk();
let check: CheckJson;

interface Oil {
  readonly pressures: {
    speed: number;
    temperature: number;
    measured: { value: number };
    as_new: { value: number };
  }[];
  readonly repairs: { repair: string; idle: { value: number }; cold: { value: number } }[];
}

const PSI = 6894.757;
let oil: Oil;

beforeAll(async () => {
  await desk.good('new', '--demo', 'linnet');
  check = await desk.json<CheckJson>('check', 'linnet');
  oil = await desk.json<Oil>('oil', 'linnet');
});
afterAll(() => desk.clear());

/** The rows of the tables of traps: what to look at, its status, and what the mean would have said. */
const TRAPS = readFileSync(new URL('../../demo/linnet/README.md', import.meta.url), 'utf8')
  .split('\n')
  .flatMap((line) => {
    const row = /^\| ([a-z0-9.-]+\.[a-z0-9.@-]+) \| (\S+) \| (\S*) ?\| (.*) \|$/.exec(line);
    return row ? [{ look: row[1]!, status: row[2]!, mean: row[3]!, why: row[4]! }] : [];
  });

describe('the traps of the demo engine', () => {
  it('are all written down', () => expect(TRAPS.length).toBeGreaterThanOrEqual(30));

  it.each(TRAPS)('$look is $status: $why', ({ look, status, mean }) => {
    const judgement = check.judgements.find((one) => nameOf(one) === look);
    expect(judgement?.status).toBe(status);
    if (mean !== '') expect(judgement?.mean?.verdict).toBe(mean);
  });

  it('the torque printed for the pump cover screws is refused: more than twice proof', () => {
    const cover = check.torques.find(({ fastener }) => fastener.includes('cover'));
    expect(cover?.advice.advice).toBe('refused');
    expect(cover?.advice.proofFraction).toBeGreaterThan(2);
  });

  it('main 1, on its limit, does not matter: main 3 is out on the same crank', () => {
    const main1 = check.judgements.find((one) => nameOf(one) === 'crank.main-journal@1');
    expect(main1?.next?.move).toBe('does-not-matter');
  });

  it('the radial clearance is decided by the diameters, which leaves alone could not do', async () => {
    const radial = check.judgements.find((one) => nameOf(one) === 'pump.radial-clearance');
    expect(radial?.witnesses.map(({ by }) => by).sort()).toEqual(['leaves', 'relation']);
    const { out } = await desk.good('why', 'linnet', 'pump.radial-clearance');
    expect(out).toMatch(/by Feeler leaves .*alone: cannot tell/);
    expect(out).toMatch(/by formula .*alone: out/);
  });

  it('the slip 2.4585 is kept with what was first said, and would be asked about again', async () => {
    const { out } = await desk.good('why', 'linnet', 'crank.main-journal@2');
    expect(out).toContain('first said 2.4585 in');
    const again = [
      'read',
      'linnet',
      'crank.main-journal',
      '2.4585in',
      '--at',
      '2/front/90',
      '--with',
      'micrometer',
    ];
    const said = await desk.fettle(again);
    expect(said.status).toBe(2);
    expect(said.err).toContain('reading/implausible');
    expect(said.err).toContain('2.4985 in');
  });

  it('no cover may be closed', () => {
    expect(check.gates.length).toBeGreaterThanOrEqual(6);
    expect(check.gates.every(({ state }) => state === 'held')).toBe(true);
  });
});

describe('the predicted pressure of the demo engine', () => {
  const hotIdle = () =>
    oil.pressures.find(({ speed, temperature }) => Math.abs(speed - 62.83) < 0.1 && temperature > 350)!;
  const repair = (word: RegExp) => oil.repairs.find((one) => word.test(one.repair))!;

  it('hot idle as found is far under the minimum of 15 psi and about a quarter of as new', () => {
    const { measured, as_new } = hotIdle();
    expect(measured.value / PSI).toBeLessThan(10);
    expect(measured.value / as_new.value).toBeGreaterThan(0.2);
    expect(measured.value / as_new.value).toBeLessThan(0.3);
  });

  it('a new relief spring changes nothing at hot idle and a little when cold', () => {
    const cold = oil.pressures.find(
      ({ speed, temperature }) => Math.abs(speed - 62.83) < 0.1 && temperature < 300,
    )!;
    expect(Math.abs(repair(/relief spring/i).idle.value - hotIdle().measured.value)).toBeLessThan(0.05 * PSI);
    const more = (repair(/relief spring/i).cold.value - cold.measured.value) / PSI;
    expect(more).toBeGreaterThan(1);
    expect(more).toBeLessThan(10);
  });

  it('the pump’s clearances and the mains carry nearly all the loss, rods, cam and rockers a little', () => {
    const gain = (word: RegExp) => repair(word).idle.value - hotIdle().measured.value;
    const heavy = [/end clearance/i, /radial clearance/i, /main bearing/i].map(gain);
    const light = [/rod bearing/i, /cam bush/i, /rocker/i].map(gain);
    expect(Math.min(...heavy)).toBeGreaterThan(2 * Math.max(...light));
  });

  it('is within the gauge’s own ±3 psi of every reading taken in the van', async () => {
    const log = await desk.json<{ body: { pressure: string; speed: string; temperature: string } }[]>(
      'log',
      'linnet',
      '--kind',
      'gauge-reading',
    );
    expect(log).toHaveLength(5);
    for (const { body } of log) {
      const at = oil.pressures.find(
        ({ speed, temperature }) =>
          Math.abs(speed - (Number.parseFloat(body.speed) * Math.PI) / 30) < 0.1 &&
          Math.abs(temperature - 273.15 - Number.parseFloat(body.temperature)) < 0.1,
      )!;
      expect(Math.abs(at.measured.value / PSI - Number.parseFloat(body.pressure))).toBeLessThan(3);
    }
  });
});

it('entering the demo a second time adds nothing, and two data directories hold the same entries', async () => {
  const again = await desk.json<{ added: number }>('new', '--demo', 'linnet');
  expect(again.added).toBe(0);
  const other = new CommandDesk();
  await other.good('new', '--demo', 'linnet');
  expect(await other.json('log', 'linnet')).toEqual(await desk.json('log', 'linnet'));
  other.clear();
});

it('ends with 1 while anything is open, and says so in one line first and last', async () => {
  const { status, out } = await desk.fettle(['check', 'linnet']);
  expect(status).toBe(1);
  const lines = out.trimEnd().split('\n');
  expect(lines.at(-1)).toMatch(/✖ \d+ out .* No cover may be closed\.$/);
  expect(lines.slice(0, 4)).toContain(lines.at(-1));
});

it('trial runs of the band agree with its first order', async () => {
  const { pressures } = await desk.json<{
    pressures: {
      measured: { standard_uncertainty: number };
      monte_carlo: { standard_uncertainty: number };
    }[];
  }>('oil', 'linnet', '--speed', '600rpm', '--temperature', '93degC', '--trials', '2000');
  const [idle] = pressures;
  expect(idle!.monte_carlo.standard_uncertainty / idle!.measured.standard_uncertainty).toBeGreaterThan(0.85);
  expect(idle!.monte_carlo.standard_uncertainty / idle!.measured.standard_uncertainty).toBeLessThan(1.15);
});

it('bores read at 6 °C: bore 3 is in as read and cannot be told at 20 °C, its taper does not depend on it', async () => {
  const { out: wear } = await desk.good('why', 'linnet', 'bore.wear@3');
  expect(wear.replace(/\s+/g, ' ')).toMatch(
    /0\.00056 in more than as read\. The temperature decides: as read, 0\.0071 .* it would be in; at 20 °C it is cannot tell/,
  );
  const { out: taper } = await desk.good('why', 'linnet', 'bore.taper@3');
  expect(taper.replace(/\s+/g, ' ')).toContain('The conclusion does not depend on it');
});
