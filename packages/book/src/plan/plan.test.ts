import { CATALOGUE, normalCdf, standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { assessment } from '../assess/assessment.ts';
import { Reckoning } from '../assess/reckoning.ts';
import { asFittedNow } from '../assess/selection.ts';
import type { Body } from '../ledger/bodies.ts';
import { filledCircuit } from '../oil/circuit.ts';
import { gaugePressure } from '../oil/pressure.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { measuringMoves } from './measuring.ts';
import { type RepairPlan, repairPlan } from './plan.ts';
import { type Planning, type PlanWishes, planningOf } from './planning.ts';

const NOW = Date.parse('2026-03-01T12:00:00Z');

const IDLE = { speed: (600 * 2 * Math.PI) / 60, temperature: 273.15 + 93 };
const PSI = 6894.757;

const bearing = (main: string) => ({
  id: `main-${main}`,
  law: 'groove-bearing',
  from: 'gallery',
  to: 'sump',
  diameter: '2.5 in',
  land_length: '0.6 in',
  eccentricity_ratio: 0.6,
  radial_clearance: { from: 'main', at: { main }, factor: 0.5, nominal: '0.0020 in', repair: 'Mains' },
});

const LIMITS = { new: { lower: '0.0015 in', upper: '0.0030 in' }, wear: { upper: '0.004 in' } };

/** A pump, two mains and a jet; what else the engine has is one thing that nothing oily depends on. */
const engine = (least: string, more: Record<string, unknown> = {}) =>
  new Bench({
    axes: { main: ['1', '2'] },
    characteristics: [
      inches('end', { limits: { new: LIMITS.new, wear: { upper: '0.006 in' } } }),
      inches('main', { places: ['main'], limits: LIMITS }),
      inches('lift', { limits: { new: { lower: '0.250 in' } } }),
    ],
    oil: {
      grades: {
        thin: { name: 'Thin', kv40: '93 mm2/s', kv100: '10.8 mm2/s' },
        thick: { name: 'Thick', kv40: '140 mm2/s', kv100: '14.4 mm2/s' },
      },
      fill: 'thin',
      density15: '885 kg/m3',
      hot: '93 degC',
      speeds: ['600 rpm'],
      pressures: [
        {
          speed: '600 rpm',
          temperature: '93 degC',
          lower: least,
          source: { document: 'made', trust: 'assumed' },
        },
      ],
      circuit: {
        gauge: 'gallery',
        elements: [
          {
            id: 'pump',
            law: 'gear-pump',
            from: 'sump',
            to: 'gallery',
            displacement: '0.6 in3',
            speed_ratio: 0.5,
            face_ratio: 2,
            face_split: 0,
            end_clearance: { from: 'end', nominal: '0.0025 in' },
          },
          bearing('1'),
          bearing('2'),
          {
            id: 'jet',
            law: 'orifice',
            from: 'gallery',
            to: 'sump',
            diameter: '0.03 in',
            discharge_coefficient: 0.62,
          },
        ],
      },
    },
    ...more,
  });

type Offered = Partial<Omit<Body<'repair-offered'>, 'restores'>> & {
  restores?: Partial<Body<'repair-offered'>['restores'][number]>[];
};

function offer(bench: Bench, id: string, price: number, { restores = [], ...more }: Offered = {}): void {
  bench.desk.write('repair-offered', {
    offer: id,
    name: id,
    price,
    repairs: [],
    needs: [],
    excludes: [],
    trust: 'quoted',
    restores: restores.map((one) => ({ characteristic: 'end', judged_by: 'new' as const, ...one })),
    ...more,
  });
}

function planned(bench: Bench, wishes: Partial<PlanWishes> = {}): Planning & RepairPlan {
  const planning = planningOf(bench.book(), bench.assessed(), { confidence: 0.95, now: NOW, ...wishes });
  if (!planning.ok) throw new Error(planning.issues[0]!.message);
  return { ...planning.value, ...repairPlan(planning.value) };
}

function refusal(bench: Bench): string | undefined {
  const planning = planningOf(bench.book(), bench.assessed(), { confidence: 0.95, now: NOW });
  return planning.ok ? undefined : planning.issues[0]!.code;
}

/** Everything read, all of it worn but none of it out unless said. */
function worn(least: string, { lift = '0.256 in', main1 = '0.0036 in' } = {}): Bench {
  const bench = engine(least);
  bench.read('end', '0.0055 in', { instrument: 'depth' });
  bench.read('main', main1, { at: '1', instrument: 'dbg' });
  bench.read('main', '0.0034 in', { at: '2', instrument: 'dbg' });
  bench.read('lift', lift, { instrument: 'mic' });
  return bench;
}

const now = (bench: Bench) => {
  const book = bench.book();
  const circuit = filledCircuit(book, new Reckoning(book, asFittedNow(book), CATALOGUE));
  if (!circuit.ok) throw new Error(circuit.issues[0]!.message);
  return circuit.value;
};

describe('the pressure of a plan', () => {
  it('is that of the circuit with the same repairs made', () => {
    const bench = worn('1 psi');
    offer(bench, 'ends', 10, { repairs: [{ repair: 'end' }] });
    offer(bench, 'mains', 20, { repairs: [{ repair: 'Mains' }] });
    const { chances } = planned(bench);
    const circuit = now(bench);
    for (const [mask, repairs] of [
      [1, ['end']],
      [2, ['Mains']],
      [3, ['end', 'Mains']],
    ] as const)
      expect(
        chances!.pressures(mask)[0]!.value / gaugePressure(circuit, IDLE, { as: 'repaired', repairs }).value,
      ).toBeCloseTo(1, 9);
  });

  it('rises with every place restored, and a place left as it was leaves its bearing as it was', () => {
    const bench = worn('1 psi');
    offer(bench, 'main-1', 10, { restores: [{ characteristic: 'main', at: { main: '1' } }] });
    offer(bench, 'both', 30, { restores: [{ characteristic: 'main' }] });
    const { chances } = planned(bench);
    const [none, one, both] = [0, 1, 2].map((mask) => chances!.pressures(mask)[0]!.value);
    expect(one).toBeGreaterThan(none!);
    expect(both).toBeGreaterThan(one!);
  });

  it('carries the doubt that was said, or anywhere within the limits for new parts', () => {
    const bench = worn('1 psi');
    offer(bench, 'promised', 10, { restores: [{ value: '0.0022 in' }] });
    offer(bench, 'said', 10, {
      restores: [{ value: '0.0022 in', doubt: '0.0001 in' }],
      excludes: ['promised'],
    });
    const { chances } = planned(bench);
    const own = (mask: number) =>
      chances!.pressures(mask)[0]!.terms.find(({ source }) => source.startsWith('offer:'))!.u;
    // .0015 wide, rectangular, against half of .0001: the same slope but for its bend.
    expect(own(1) / own(2) / (0.00075 / Math.sqrt(3) / 0.00005)).toBeCloseTo(1, 1);
  });

  it('a thicker oil may be the cheaper way', () => {
    const bench = worn('1 psi');
    offer(bench, 'thick', 12, { oil: 'thick' });
    const { chances, asNow } = planned(bench);
    expect(chances!.pressures(1)[0]!.value).toBeGreaterThan(asNow.pressures[0]!.value);
    expect(planned(bench, { grade: 'thick' }).asNow.pressures[0]!.value).toBe(
      chances!.pressures(1)[0]!.value,
    );
  });

  it('the chance of one pressure is its normal probability', () => {
    const bench = worn('6 psi');
    offer(bench, 'ends', 10, { restores: [{}] });
    const { asNow } = planned(bench);
    const [q] = asNow.pressures;
    expect(asNow.chance).toBeCloseTo(normalCdf((q!.value - 6 * PSI) / standardUncertainty(q!)), 10);
  });
});

describe('what must be settled', () => {
  it('what is out forces the one offer that settles it, at whatever price, and what it needs', () => {
    const bench = worn('1 psi', { lift: '0.240 in' });
    offer(bench, 'cam', 190, {
      lead_time: '2 weeks',
      restores: [{ characteristic: 'lift' }],
      needs: ['followers'],
    });
    offer(bench, 'followers', 60, { lead_time: '5 days' });
    offer(bench, 'paint', 5);
    const { best, chosen, leftOut } = planned(bench);
    expect(best).toMatchObject({ offers: ['cam', 'followers'], price: 250, days: 19 });
    expect(chosen[0]?.forcedBy.map(({ judgement }) => judgement.characteristic.id)).toEqual(['lift']);
    expect(chosen[1]?.neededBy).toEqual(['cam']);
    expect(leftOut).toMatchObject([
      { offer: { id: 'paint' }, why: 'not-needed', cheapestWith: { price: 255 } },
    ]);
  });

  it('a value that is itself out settles nothing, and one in by wear is named', () => {
    const bench = worn('1 psi', { main1: '0.0050 in' });
    const to = (value: string, judged_by: 'new' | 'wear') => ({
      restores: [{ characteristic: 'main', at: { main: '1' }, value, judged_by }],
    });
    offer(bench, 'short', 1, to('0.0041 in', 'wear'));
    offer(bench, 'strict', 2, to('0.0035 in', 'new'));
    expect(planned(bench).unoffered.map(({ characteristic }) => characteristic.id)).toEqual(['main']);
    offer(bench, 'enough', 3, to('0.0035 in', 'wear'));
    const { best, chosen, unoffered } = planned(bench);
    expect(best?.offers).toEqual(['enough']);
    expect(chosen[0]?.byWearOnly).toEqual(['main']);
    expect(unoffered).toEqual([]);
  });

  it('two that bring one clearance to two values exclude each other, though nobody said so', () => {
    const bench = worn('1 psi');
    offer(bench, 'a', 1, { restores: [{ value: '0.0020 in' }] });
    offer(bench, 'b', 2, { restores: [{ value: '0.0028 in' }] });
    const { bits } = planned(bench);
    expect(bits.choices.map(({ excludes }) => excludes)).toEqual([2, 1]);
  });

  it('what is not there in time cannot be taken, and what needs what is not offered neither', () => {
    const bench = worn('1 psi', { lift: '0.240 in' });
    offer(bench, 'slow', 10, { lead_time: '4 weeks', restores: [{ characteristic: 'lift' }] });
    offer(bench, 'fast', 90, { lead_time: '1 week', restores: [{ characteristic: 'lift' }] });
    offer(bench, 'lame', 1, { restores: [{ characteristic: 'lift' }], needs: ['nothing-there'] });
    expect(planned(bench).best?.offers).toEqual(['slow']);
    const hurried = planned(bench, { days: 14 });
    expect(hurried.best?.offers).toEqual(['fast']);
    expect(hurried.leftOut.map(({ offer: { id }, why }) => [id, why])).toEqual([
      ['slow', 'not-in-time'],
      ['lame', 'needs-what-is-not-offered'],
    ]);
    expect(planned(bench, { days: 3 }).late.map(({ judgement }) => judgement.characteristic.id)).toEqual([
      'lift',
    ]);
  });

  it('what was not read and could be out is named, and forces nothing', () => {
    const bench = engine('1 psi');
    offer(bench, 'cam', 190, { restores: [{ characteristic: 'lift' }] });
    const { best, unread } = planned(bench);
    expect(best?.price).toBe(0);
    expect(unread.map(({ characteristic }) => characteristic.id)).toEqual(['lift']);
  });
});

describe('measuring before buying', () => {
  const moves = (bench: Bench, wishes: Partial<PlanWishes> = {}) => {
    const plan = planned(bench, wishes);
    const book = bench.book();
    return measuringMoves(plan, plan, assessment(book, asFittedNow(book), CATALOGUE).judgements);
  };

  it('a verdict that nobody can tell saves its price as often as it is in', () => {
    // .2501 against .2500, u .0001 by the micrometer: in with Φ(1).
    const bench = worn('1 psi', { lift: '0.2501 in' });
    offer(bench, 'cam', 190, { restores: [{ characteristic: 'lift' }] });
    const [move] = moves(bench);
    expect(move).toMatchObject({ about: 'verdict', extra: 190 });
    expect(move?.saving).toBeCloseTo(190 * normalCdf(1), 0);
  });

  const ends = (bench: Bench) =>
    offer(bench, 'ends', 10, { restores: [{ value: '0.0022 in', doubt: '0.00002 in' }] });

  it('a band that keeps a cheaper set from being sure is named with the reading that it comes from', () => {
    const loose = worn('1 psi');
    ends(loose);
    const alone = planned(loose).chances!.pressures(1)[0]!.value / PSI;
    // A least just under what the ends alone would give: likely enough, and not sure.
    const close = worn(`${(alone - 0.02).toFixed(3)} psi`);
    ends(close);
    offer(close, 'mains', 100, {
      restores: [{ characteristic: 'main', value: '0.0020 in', doubt: '0.0001 in' }],
    });
    const plan = planned(close);
    expect(plan.best?.offers).toEqual(['ends', 'mains']);
    const [move] = moves(close);
    expect(move).toMatchObject({
      about: 'band',
      less: 100,
      cheaper: { offers: ['ends'] },
      most: { from: { kind: 'readings', instrument: 'dbg', of: ['main'] } },
    });
    expect(move?.saving).toBeCloseTo(100 * plan.asSet(1).chance, 9);
  });
});

describe('what cannot be planned', () => {
  it('is refused in words: no offers, too many, and too many ways to combine them', () => {
    expect(refusal(worn('1 psi'))).toBe('plan/no-offers');
    const many = worn('1 psi');
    for (let i = 0; i < 29; i++) offer(many, `part-${i}`, 1);
    expect(refusal(many)).toBe('plan/too-many-offers');
    const oily = worn('1 psi');
    for (let i = 0; i < 15; i++) offer(oily, `part-${i}`, 1, { restores: [{ value: '0.0020 in' }] });
    expect(refusal(oily)).toBe('plan/too-many-combinations');
  });

  it('an offer that does not fit the sheet any more is set aside and named', () => {
    const bench = worn('1 psi');
    offer(bench, 'odd', 1, { restores: [{ characteristic: 'gone' }] });
    offer(bench, 'good', 1);
    const { offers, refused } = planned(bench);
    expect(offers.map(({ id }) => id)).toEqual(['good']);
    expect(refused[0]?.issues[0]?.code).toBe('offer/unknown-characteristic');
  });

  it('without a circuit the plan goes by verdicts, and says why', () => {
    const bench = new Bench({
      characteristics: [inches('lift', { limits: { new: { lower: '0.250 in' } } })],
    });
    bench.read('lift', '0.240 in', { instrument: 'mic' });
    offer(bench, 'cam', 190, { restores: [{ characteristic: 'lift' }] });
    const { best, conditions, pressureOnly } = planned(bench);
    expect(best).toMatchObject({ price: 190, chance: 1, pressures: [] });
    expect(conditions).toEqual([]);
    expect(pressureOnly).toEqual([]);
  });
});
