import type { FilledCircuit } from '../oil/circuit.ts';
import { type ClearanceGroup, clearanceGroups } from './clearance-groups.ts';
import {
  type Changes,
  type Family,
  type FamilyKind,
  PRIOR_WEIGHTS,
  SEVERITIES,
  type Severity,
  type Variant,
  WRONG_GAUGE,
} from './family.ts';
import type { Known } from './faulty-network.ts';
import { elementsOf, isPump, isRelief, OPEN_HOLE, RELIEF_LEAK } from './rigs.ts';

type Draft = Omit<Family, 'prior'> & { readonly weight: number };

const onlyOne = (changes: (s: number) => Changes): readonly Variant[] => [{ changes }];
const scaled = (names: readonly string[], factor: number): Changes => ({
  factors: Object.fromEntries(names.map((name) => [name, factor])),
});

/**
 * Every fault the circuit can have, with its probability before any reading.
 *
 * @param gauges  instruments the readings were taken with
 */
export function faultFamilies(circuit: FilledCircuit, known: Known, gauges: readonly string[]): Family[] {
  const groups = clearanceGroups(circuit, known);
  const weight = (kind: FamilyKind): number =>
    PRIOR_WEIGHTS[kind][known === 'measured' ? 'measured' : 'unmeasured'];
  const drafts: Draft[] = [
    {
      id: 'nothing',
      kind: 'nothing',
      name: known === 'measured' ? 'as measured, nothing further wrong' : 'nothing beyond ordinary wear',
      weight: weight('nothing'),
      model:
        known === 'measured'
          ? 'the circuit with what was measured'
          : 'the circuit with its clearances as new',
      variants: onlyOne(() => ({})),
    },
    ...wornThroughout(groups),
    ...worn(groups),
    ...valveFaults(circuit, weight),
    ...oilFaults(circuit, weight),
    ...openings(circuit, weight),
  ];
  if (gauges.length > 0)
    drafts.push({
      id: 'gauge',
      kind: 'gauge',
      name: 'the gauge itself is wrong',
      weight: weight('gauge'),
      model: 'its zero or its scale is out by more than stated, either way',
      variants: gauges.flatMap((instrument) => [
        { changes: () => ({}), gauge: { instrument, offset: WRONG_GAUGE.offset, scale: 0 } },
        { changes: () => ({}), gauge: { instrument, offset: 0, scale: WRONG_GAUGE.scale } },
      ]),
    });
  const total = drafts.reduce((sum, draft) => sum + draft.weight, 0);
  return drafts.map(({ weight: share, ...family }) => ({ ...family, prior: share / total }));
}

/** Wear rarely stays in one place: everything that was not measured, by one factor. */
function wornThroughout(groups: readonly ClearanceGroup[]): Draft[] {
  const unmeasured = groups.filter(({ measured }) => !measured);
  if (unmeasured.length < 2) return [];
  const names = unmeasured.flatMap(({ parameters }) => parameters);
  return [
    {
      id: 'worn-throughout',
      kind: 'worn-throughout',
      name: 'bearings and pump worn throughout',
      weight: PRIOR_WEIGHTS['worn-throughout'].unmeasured,
      severity: SEVERITIES.throughout,
      model: 'every clearance that was not measured, wider by one factor',
      variants: onlyOne((s) => scaled(names, s)),
    },
  ];
}

/** Each kind's weight goes evenly to its groups. */
function worn(groups: readonly ClearanceGroup[]): Draft[] {
  const alike = (kind: FamilyKind) => groups.filter((one) => one.kind === kind).length;
  return groups.map(({ kind, name, parameters, measured }) => ({
    id: `${kind}:${name}`,
    kind,
    name: `${measured ? 'wider than measured' : 'worn'}: ${lowered(name)}`,
    weight: PRIOR_WEIGHTS[kind][measured ? 'measured' : 'unmeasured'] / alike(kind),
    severity: SEVERITIES.clearance,
    model: 'all its clearances, wider by one factor',
    variants: onlyOne((s) => scaled(parameters, s)),
  }));
}

/** In the middle of a sentence, unless it is a name or an abbreviation. */
const lowered = (name: string): string =>
  /^[A-Z][a-z]/.test(name) ? name[0]!.toLowerCase() + name.slice(1) : name;

function valveFaults(circuit: FilledCircuit, weight: (kind: FamilyKind) => number): Draft[] {
  const valves = elementsOf(circuit).filter(isRelief);
  const { parameters } = circuit.network;
  const [valve] = valves;
  if (!valve) return [];
  const id = String(valve.id);
  const port =
    parameters[`${id}.hole_diameter`] ??
    Math.sqrt(4 / Math.PI) * (parameters[`${id}.plunger_diameter`] ?? 0.01) * 0.5;
  const springs = valves.flatMap((one) =>
    ['preload', 'cracking_pressure'].flatMap((key) => {
      const name = `${String(one.id)}.${key}`;
      return parameters[name] === undefined ? [] : [name];
    }),
  );
  const lengths = valves.flatMap((one) => {
    const [free, installed] = ['free_length', 'installed_length'].map((key) => `${String(one.id)}.${key}`);
    const [longer, shorter] = [parameters[free!], parameters[installed!]];
    return longer === undefined || shorter === undefined ? [] : [{ name: installed!, longer, shorter }];
  });
  const spring = (s: number): Changes => ({
    ...scaled(springs, s),
    values: Object.fromEntries(
      // Never below nothing: a spring longer than its seat still fits it.
      lengths.map(({ name, longer, shorter }) => [
        name,
        Math.max(longer - s * (longer - shorter), longer * 0.01),
      ]),
    ),
  });
  return [
    {
      id: 'relief-open',
      kind: 'relief-open',
      name: 'relief valve leaking or stuck open',
      weight: weight('relief-open'),
      severity: SEVERITIES.relief,
      model: 'a hole beside the valve, by its share of the port',
      variants: onlyOne((s) => ({ values: { [`${RELIEF_LEAK}.diameter`]: port * Math.sqrt(s) } })),
    },
    ...(springs.length + lengths.length > 0
      ? [
          {
            id: 'spring',
            kind: 'spring' as const,
            name: 'relief spring wrong or altered',
            weight: weight('spring'),
            severity: SEVERITIES.spring,
            model: 'the valve opens at another pressure, lower or higher',
            variants: onlyOne(spring),
          },
        ]
      : []),
  ];
}

function oilFaults(circuit: FilledCircuit, weight: (kind: FamilyKind) => number): Draft[] {
  const swept = elementsOf(circuit).some(
    (one) => isPump(one) && circuit.network.parameters[`${String(one.id)}.speed_ratio`] !== undefined,
  );
  const graded = (
    kind: 'thin-oil' | 'suction-air' | 'pickup',
    name: string,
    severity: Severity,
    model: string,
    changes: (s: number) => Changes,
  ): Draft => ({ id: kind, kind, name, weight: weight(kind), severity, model, variants: onlyOne(changes) });
  return [
    graded(
      'thin-oil',
      'oil thin or diluted',
      SEVERITIES.oil,
      'the viscosity at every temperature, by one factor',
      (viscosity) => ({ viscosity }),
    ),
    ...(swept
      ? [
          graded(
            'suction-air',
            'suction side drawing air',
            SEVERITIES.air,
            'the same share of air at every speed',
            (air) => ({ air }),
          ),
          graded(
            'pickup',
            'pickup or its screen blocked',
            SEVERITIES.ceiling,
            'no more than so much oil reaches the pump, hot or cold',
            (ceiling) => ({ ceiling }),
          ),
        ]
      : []),
  ];
}

function openings(circuit: FilledCircuit, weight: (kind: FamilyKind) => number): Draft[] {
  const jets = elementsOf(circuit).flatMap((one) => {
    const name = `${String(one.id)}.diameter`;
    return one.law === 'orifice' && circuit.network.parameters[name] !== undefined ? [name] : [];
  });
  const eachJet = (s: number) => (name: string) => scaled([name], s);
  const variants: Variant[] = jets.map((name) => ({ changes: (s) => eachJet(s)(name) }));
  return [
    {
      id: 'lost-plug',
      kind: 'lost-plug',
      name: 'a plug or jet missing, a passage open',
      weight: weight('lost-plug'),
      severity: SEVERITIES.hole,
      model: 'an open hole at the gauge’s gallery',
      variants: onlyOne((s) => ({ values: { [`${OPEN_HOLE}.diameter`]: s / 1000 } })),
    },
    ...(jets.length > 0
      ? [
          {
            id: 'restrictor-lost',
            kind: 'restrictor-lost' as const,
            name: 'a restrictor lost or drilled out',
            weight: weight('restrictor-lost'),
            severity: SEVERITIES.lost,
            model: 'any one of the circuit’s restrictors, wider',
            variants,
          },
          {
            id: 'restrictor-blocked',
            kind: 'restrictor-blocked' as const,
            name: 'a restrictor blocked',
            weight: weight('restrictor-blocked'),
            severity: SEVERITIES.blocked,
            model: 'any one of the circuit’s restrictors, narrower',
            variants,
          },
        ]
      : []),
  ];
}
