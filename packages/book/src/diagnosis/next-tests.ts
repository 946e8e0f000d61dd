import { parseQuantity, printQuantity } from '@fettle/core';
import type { SpecSheet } from '../sheet/sheet.ts';
import { OWN_SHARE } from './doubts.ts';
import type { FamilyKind } from './family.ts';
import type { FaultyNetwork, Setting } from './faulty-network.ts';
import type { GaugeEvidence } from './gauge-evidence.ts';
import type { Observable } from './hypotheses.ts';
import { elementsOf, isPump, isRelief, VESSEL_PRESSURE } from './rigs.ts';

/** How a reading of a test is taken, and where among the observables it stands. */
export interface Probe {
  readonly words: string;
  readonly measures: 'pressure' | 'flow';
  readonly observable: Observable;
}

/** A look that finds or does not find: how often it finds, by what is wrong. */
interface Look {
  readonly finds: Readonly<Partial<Record<FamilyKind, number>>>;
  /** How often it seems to find something when that is not what is wrong. */
  readonly falsely: number;
  readonly found: string;
  readonly clear: string;
}

/** Something that could be done next. */
export interface TestPlan {
  readonly id: string;
  readonly name: string;
  readonly how: string;
  /** Work [h]; assumed. */
  readonly hours: number;
  readonly cautions: readonly string[];
  readonly probes: readonly Probe[];
  readonly look?: Look;
}

const RUNNING_CAUTION =
  'Running engine: exhaust out of doors, loose clothing and fingers clear of belts and fan; hot oil.';
const PAN_CAUTION =
  'Vehicle on stands on firm ground, never on a jack alone; hot oil, gloves, rags kept and oil caught.';
/** Doubt of predictions for things no engine does when it runs: the journal lies still, the drive is a drill. */
const STANDING_SHARE = 0.15;
const BENCH_SHARE = 0.08;
/** A jug and a watch. */
const FLOW_SHARE = 0.05;
/** What a further gauge is taken to be where no gauge was declared: U = 3 psi, half of it common. Assumed. */
const USUAL_GAUGE = { instrument: 'oil-gauge', u: 1.5 * 6894.757, common: 0.5 };
/** How near a reading must be to count as already taken. */
const NEAR = { speed: 0.1, temperature: 8 } as const;
/** Warm enough to run, cool enough to hold a hand in [K]. */
const WARM = 313.15;
const BENCH = { temperature: 333.15, pressure: 1.5e5, share: 0.7, density: 870, coefficient: 0.62 } as const;

/** Jet through which a pump with its usual slip holds about 1.5 bar on the bench, in whole tenths of a millimetre [m]. */
export function benchJet(network: FaultyNetwork, speed: number): number {
  const { circuit } = network;
  const id = String(elementsOf(circuit).find(isPump)?.id);
  const { parameters } = circuit.network;
  const swept =
    ((parameters[`${id}.displacement`] ?? 1e-5) * (parameters[`${id}.speed_ratio`] ?? 0.5) * speed) /
    (2 * Math.PI);
  const area = (BENCH.share * swept) / (BENCH.coefficient * Math.sqrt((2 * BENCH.pressure) / BENCH.density));
  return Math.max(5, Math.round(Math.sqrt((4 * area) / Math.PI) * 1e4)) / 1e4;
}

type Oil = NonNullable<SpecSheet['oil']>;
const si = (text: string | undefined, kind: 'speed' | 'temperature'): number | undefined => {
  const read = text === undefined ? undefined : parseQuantity(text, kind);
  return read?.ok ? read.value.value : undefined;
};

/** The conditions the sheet names: hot first, slowest first. */
export function sheetRunning(oil: Oil): { speed: number; temperature: number }[] {
  const speeds = oil.speeds.flatMap((text) => si(text, 'speed') ?? []).sort((a, b) => a - b);
  return [oil.hot, oil.cold].flatMap((text) => {
    const temperature = si(text, 'temperature');
    return temperature === undefined ? [] : speeds.map((speed) => ({ speed, temperature }));
  });
}

const conditionWords = ({ speed, temperature }: { speed: number; temperature: number }): string =>
  `${printQuantity(speed, 'rpm', 0)}, oil at ${printQuantity(temperature, 'degC', 0)}`;

/** Everything that could be done next with this circuit and sheet, readings already taken left out. */
export function testPlans(oil: Oil, network: FaultyNetwork, readings: readonly GaugeEvidence[]): TestPlan[] {
  const usual = readings[0] ?? USUAL_GAUGE;
  const running = sheetRunning(oil);
  const [hotIdle] = running;
  if (!hotIdle) return [];
  const hot = running.filter(({ temperature }) => temperature === hotIdle.temperature);
  const coldIdle = running.find(({ temperature }) => temperature !== hotIdle.temperature);
  const fastest = hot.at(-1)!;
  const gauge = (
    setting: Partial<Setting> & { speed: number; temperature: number },
    instrument = usual.instrument,
  ): Probe => ({
    words: conditionWords(setting),
    measures: 'pressure',
    observable: {
      setting: { rig: 'engine', grade: oil.fill, ...setting },
      instrument,
      u: () => usual.u,
      common: usual.common,
      own: OWN_SHARE,
    },
  });
  const spread = [...new Set([hotIdle, fastest, ...(coldIdle ? [coldIdle] : [])])];
  const other = network.grades.find((grade) => grade !== oil.fill);
  const taken = (at: { speed: number; temperature: number }) =>
    readings.some(
      ({ speed, temperature }) =>
        Math.abs(speed / at.speed - 1) < NEAR.speed &&
        Math.abs(temperature - at.temperature) < NEAR.temperature,
    );
  const further = running.filter((at) => !taken(at));
  return [
    ...further.slice(0, 4).map(
      (at): TestPlan => ({
        id: `reading ${conditionWords(at)}`,
        name:
          at === coldIdle ? 'Read the gauge at idle from cold' : `Read the gauge at ${conditionWords(at)}`,
        how: 'The same gauge, the oil at that temperature all through, the pointer steady.',
        hours: 0.5,
        cautions: [RUNNING_CAUTION],
        probes: [gauge(at)],
      }),
    ),
    {
      id: 'second-gauge',
      name: 'A second, checked gauge in the same port',
      how: 'Another instrument altogether, with a line and fittings of its own.',
      hours: 0.5,
      cautions: [RUNNING_CAUTION],
      probes: spread.map((at) => gauge(at, 'a second gauge')),
    },
    {
      id: 'fresh-oil',
      name: `Drain, and fill fresh ${oil.grades[oil.fill]?.name ?? oil.fill}`,
      how: 'Warm it through, then read again. Smell and look at what comes out: fuel, water, glitter.',
      hours: 1,
      cautions: ['Hot oil; used oil is kept off the skin and handed in.', RUNNING_CAUTION],
      probes: spread.map((at) => gauge({ ...at, renewed: 'oil' })),
    },
    ...(other
      ? [
          {
            id: 'other-grade',
            name: `Drain, and fill ${oil.grades[other]?.name ?? other} instead`,
            how: 'Read again hot. The maker’s grade goes back in afterwards unless the sheet allows the other.',
            hours: 1,
            cautions: ['Hot oil; used oil is kept off the skin and handed in.', RUNNING_CAUTION],
            probes: spread.map((at) => gauge({ ...at, grade: other, renewed: 'oil' })),
          },
        ]
      : []),
    ...(elementsOf(network.circuit).some(isRelief)
      ? [
          {
            id: 'relief-swap',
            name: 'Fit a relief valve and spring known to be right',
            how: 'Or put in the right spring with the plunger cleaned and seen to seat, then read again.',
            hours: 1,
            cautions: ['The spring is under load: hold the plug while it comes out.', RUNNING_CAUTION],
            probes: spread.map((at) => gauge({ ...at, renewed: 'relief' })),
          },
          {
            id: 'relief-out',
            name: 'Take the relief valve out, look at plunger and seat, measure the spring under load',
            how: 'Free length alone does not judge a spring: weigh it at its installed length.',
            hours: 0.7,
            cautions: ['The spring is under load: hold the plug while it comes out. Eye shield.'],
            probes: [],
            look: {
              finds: { 'relief-open': 0.85, spring: 0.95 },
              falsely: 0.05,
              found: 'plunger scored, stuck or leaking, or spring off its load',
              clear: 'plunger free and seating, spring right',
            },
          },
        ]
      : []),
    {
      id: 'leak-test',
      name: 'Static leak test: feed the gallery from a vessel of oil under pressure, engine not turning',
      how: `Pump outlet blanked off, so that the pump has no part in it; ${printQuantity(VESSEL_PRESSURE, 'bar', 1)} at the gallery by a regulator. Measure what runs out in a minute, and see from where. Cold oil tells less: the jets then pass more than the bearings.`,
      hours: 6,
      cautions: [
        'Pressurised vessel: only one rated and in date for more than the pressure used, with a regulator and a safety valve set to it; eye shield; let the pressure off before touching anything. Local rules for pressure vessels hold. Warmed oil scalds: gloves, sleeves, nobody under the engine.',
        PAN_CAUTION,
      ],
      probes: [...new Set([WARM, hotIdle.temperature])].map((temperature) => ({
        words: `${printQuantity(VESSEL_PRESSURE, 'bar', 1)} at the gallery, oil at ${printQuantity(temperature, 'degC', 0)}`,
        measures: 'flow',
        observable: {
          setting: { rig: 'leak-test', grade: oil.fill, speed: 1, temperature },
          u: (flow) => FLOW_SHARE * flow,
          common: 0,
          own: STANDING_SHARE,
        },
      })),
    },
    {
      id: 'pump-bench',
      name: 'Pump on the bench, turned by a drill against a jet',
      how: `Sucking from a pan of clean oil at ${printQuantity(BENCH.temperature, 'degC', 0)}, at the speed it has when the crank turns ${printQuantity(hotIdle.speed, 'rpm', 0)}, delivering through a ${printQuantity(network.jet, 'mm', 1)} hole with the gauge before it. Its own relief valve stays on.`,
      hours: 6,
      cautions: [
        'Drill grip: turning shaft, no gloves or sleeves near it, pump held in a vice. Hot oil under pressure: eye shield, hose rated for it.',
        PAN_CAUTION,
      ],
      probes: [
        {
          words: `through a ${printQuantity(network.jet, 'mm', 1)} hole`,
          measures: 'pressure',
          observable: {
            setting: {
              rig: 'pump-bench',
              grade: oil.fill,
              speed: hotIdle.speed,
              temperature: BENCH.temperature,
            },
            instrument: usual.instrument,
            u: () => usual.u,
            common: usual.common,
            own: BENCH_SHARE,
          },
        },
      ],
    },
    {
      id: 'look-at-pickup',
      name: 'Pan down: look at the pickup, its screen, its joint and its height',
      how: 'Screen clear, joint and pipe tight, height over the floor as the sheet has it.',
      hours: 3,
      cautions: [PAN_CAUTION],
      probes: [],
      look: {
        finds: { pickup: 0.9, 'suction-air': 0.6 },
        falsely: 0.05,
        found: 'screen blocked, joint loose or pickup too near the floor',
        clear: 'screen clear, joint tight, height right',
      },
    },
  ];
}
