import type { FilledCircuit } from '../oil/circuit.ts';
import { clearanceGroups } from './clearance-groups.ts';
import type { Departure, Known } from './faulty-network.ts';
import { elementsOf, isRelief } from './rigs.ts';

/** One thing not known exactly, standard normal: what `z` of it does to the circuit. */
export interface Doubt {
  readonly id: string;
  readonly name: string;
  /** Its standard deviation, in words. */
  readonly words: string;
  /** A constant of the model, which readings of an engine that was measured may correct. */
  readonly constant?:
    | { readonly factorAt: (z: number) => number }
    | { readonly kelvinAt: (z: number) => number };
  readonly at: (z: number) => Departure;
}

/** Standard deviations of what the model assumes. Assumed themselves: no figure for engines was found. */
const ASSUMED = { bearing: 0.2, slip: 0.25, film: 5, coefficient: 0.06 } as const;
/** Of a clearance that was not measured, in its logarithm, and of an unmeasured relief spring. */
const UNMEASURED = { clearance: 0.15, spring: 0.08 } as const;
/** Of each prediction by itself: speed and temperature as read, what the model leaves out. */
export const OWN_SHARE = 0.04;

const percent = (share: number): string => `±${Math.round(share * 100)} %`;

/** What is taken of the model's own doubt, in words: one standard deviation each. */
export const MODEL_DOUBT_WORDS = `leak of the bearings ${percent(ASSUMED.bearing)}, slip of the pump ${percent(ASSUMED.slip)}, films ±${ASSUMED.film} K, discharge coefficients ${percent(ASSUMED.coefficient)}, and ${percent(OWN_SHARE)} of each pressure by itself`;

/** What is not known of the circuit besides the doubt of what was measured. */
export function doubtsOf(circuit: FilledCircuit, known: Known): Doubt[] {
  const groups = clearanceGroups(circuit, known);
  const named = (pump: boolean) =>
    groups.filter(({ kind }) => (kind !== 'bearings') === pump).flatMap(({ parameters }) => parameters);
  const all = (names: readonly string[], factor: number): Departure => ({
    factors: Object.fromEntries(names.map((name) => [name, factor])),
  });
  /** A factor on leaks that go with the cube of a clearance. */
  const leak = (id: string, name: string, share: number, names: readonly string[]): Doubt[] =>
    names.length === 0
      ? []
      : [
          {
            id,
            name,
            words: percent(share),
            constant: { factorAt: (z) => Math.exp(share * z) },
            at: (z) => all(names, Math.exp((share * z) / 3)),
          },
        ];
  const holes = elementsOf(circuit).flatMap((one) => {
    const name = `${String(one.id)}.discharge_coefficient`;
    return circuit.network.parameters[name] === undefined ? [] : [name];
  });
  return [
    ...leak(
      'bearing-leak',
      'leak of the bearings (eccentricities, feed holes)',
      ASSUMED.bearing,
      named(false),
    ),
    ...leak('pump-slip', 'slip of the pump (leak paths)', ASSUMED.slip, named(true)),
    {
      id: 'film',
      name: 'temperature of the films',
      words: `±${ASSUMED.film} K`,
      constant: { kelvinAt: (z) => ASSUMED.film * z },
      at: (z) => ({ film: ASSUMED.film * z }),
    },
    ...(holes.length > 0
      ? [
          {
            id: 'coefficient',
            name: 'discharge coefficients',
            words: percent(ASSUMED.coefficient),
            constant: { factorAt: (z: number) => Math.exp(ASSUMED.coefficient * z) },
            at: (z: number) => all(holes, Math.exp(ASSUMED.coefficient * z)),
          },
        ]
      : []),
    ...unmeasuredDoubts(circuit, known),
  ];
}

function unmeasuredDoubts(circuit: FilledCircuit, known: Known): Doubt[] {
  const filled = new Map(circuit.parameters.map((one) => [one.name, one]));
  const unmeasured = (name: string) => known === 'before-strip' || filled.get(name)?.measured === undefined;
  const spread = (id: string, name: string, share: number, all: readonly string[]): Doubt[] => {
    const names = all.filter(unmeasured);
    return names.length === 0
      ? []
      : [
          {
            id,
            name: `${name}, not measured`,
            words: percent(share),
            at: (z) => ({ factors: Object.fromEntries(names.map((one) => [one, Math.exp(share * z)])) }),
          },
        ];
  };
  const springs = elementsOf(circuit)
    .filter(isRelief)
    .flatMap((one) =>
      ['preload', 'cracking_pressure'].flatMap((key) => {
        const name = `${String(one.id)}.${key}`;
        return circuit.network.parameters[name] === undefined ? [] : [name];
      }),
    );
  return [
    ...clearanceGroups(circuit, known).flatMap(({ kind, name, parameters }) =>
      spread(`${kind}:${name}`, name, UNMEASURED.clearance, parameters),
    ),
    ...spread('spring', 'relief spring', UNMEASURED.spring, springs),
  ];
}
