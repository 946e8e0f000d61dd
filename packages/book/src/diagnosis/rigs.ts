import { LAWS } from '@fettle/core';
import type { FilledCircuit } from '../oil/circuit.ts';

/** Where something is looked at: the running engine, a vessel feeding the standing one, the pump on the bench. */
export type Rig = 'engine' | 'leak-test' | 'pump-bench';

export type CircuitElement = Readonly<Record<string, unknown>>;

export const RELIEF_LEAK = 'fault-relief';
export const OPEN_HOLE = 'fault-hole';
export const VESSEL = 'vessel';
const JET = 'bench-jet';
/** Pressure of the vessel in the leak test [Pa]: well under what opens a relief valve. */
export const VESSEL_PRESSURE = 2e5;
/** No hole at all would have no logarithm: a micrometre passes nothing. */
const CLOSED = 1e-6;
/** What the vessel sweeps in a turn at first, so that its pressure comes out well over the solver's own tolerance [m³]. */
export const GUESS = 1e8;
const COEFFICIENT = 0.62;

const lawOf = (element: CircuitElement) =>
  (LAWS as Readonly<Record<string, { readonly pump?: true }>>)[String(element.law)];
export const isPump = (element: CircuitElement): boolean => lawOf(element)?.pump === true;
export const isRelief = (element: CircuitElement): boolean => element.law === 'relief-valve';
export const elementsOf = (circuit: FilledCircuit): readonly CircuitElement[] =>
  circuit.input.elements as readonly CircuitElement[];

const hole = (id: string, from: unknown, diameter = CLOSED) => ({
  id,
  law: 'orifice',
  from,
  to: 'sump',
  diameter,
  discharge_coefficient: COEFFICIENT,
});

/** The elements as they stand in a rig, with the holes that a fault may open. */
export function inRig(
  elements: readonly CircuitElement[],
  rig: Rig,
  gauge: string,
  jet: number,
): CircuitElement[] {
  const relief = elements.find(isRelief);
  if (rig === 'pump-bench')
    return [
      ...elements.filter(isPump).map((pump) => ({ ...pump, from: 'sump', to: 'bench' })),
      ...elements.filter(isRelief).map((valve) => ({ ...valve, from: 'bench', to: 'sump' })),
      ...(relief ? [hole(RELIEF_LEAK, 'bench')] : []),
      hole(JET, 'bench', jet),
    ];
  const holes = [...(relief ? [hole(RELIEF_LEAK, relief.from)] : []), hole(OPEN_HOLE, gauge)];
  if (rig === 'engine') return [...elements, ...holes];
  return [
    ...elements.filter((element) => !isPump(element)).map(({ film_rise, ...still }) => still),
    ...holes,
    {
      id: VESSEL,
      law: 'gear-pump',
      from: 'sump',
      to: gauge,
      displacement: GUESS,
      speed_ratio: 1,
      end_clearance: 0.02,
      face_ratio: 2,
    },
  ];
}
