import type { Caution } from '@fettle/core';
import type { FilledCircuit } from './circuit.ts';
import { oilShares, type Running } from './pressure.ts';

/** A caution of the circuit, and at how many of the conditions asked for it holds. */
export interface CautionOver extends Caution {
  readonly at: readonly Running[];
  readonly of: number;
}

/**
 * What the circuit's answers should not be believed in, over several conditions: each kind of caution once for each
 * element it is about, as it reads where it first arises.
 */
export function cautionsOver(circuit: FilledCircuit, conditions: readonly Running[]): CautionOver[] {
  const found = new Map<string, { caution: Caution; at: Running[] }>();
  for (const running of conditions)
    for (const caution of oilShares(circuit, running, { as: 'measured' }).cautions) {
      const key = `${caution.code} ${caution.about ?? ''}`;
      const known = found.get(key);
      if (known) known.at.push(running);
      else found.set(key, { caution, at: [running] });
    }
  return [...found.values()].map(({ caution, at }) => ({ ...caution, at, of: conditions.length }));
}
