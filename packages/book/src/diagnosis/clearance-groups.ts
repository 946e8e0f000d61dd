import type { FilledCircuit } from '../oil/circuit.ts';
import type { Known } from './faulty-network.ts';
import { type CircuitElement, elementsOf, isPump } from './rigs.ts';

/** Clearances of one repair, all bearings or all of one kind of pump clearance. */
export interface ClearanceGroup {
  readonly kind: 'bearings' | 'pump-faces' | 'pump-tips';
  readonly name: string;
  readonly parameters: readonly string[];
  /** Whether every one of them was measured, and the measurements count. */
  readonly measured: boolean;
}

const NUMBERED = /[-.]?\d+$/;
const UNMEASURED_NAMES = {
  bearings: 'bearings',
  'pump-faces': 'pump faces',
  'pump-tips': 'pump tips',
} as const;

function kindOf(element: CircuitElement, key: string): ClearanceGroup['kind'] | undefined {
  if (!isPump(element)) return key === 'radial_clearance' ? 'bearings' : undefined;
  if (!key.endsWith('_clearance')) return undefined;
  return key === 'tip_clearance' || key === 'body_clearance' ? 'pump-tips' : 'pump-faces';
}

/** The clearances of the circuit by what restores them, in the order of its elements. */
export function clearanceGroups(circuit: FilledCircuit, known: Known): ClearanceGroup[] {
  const filled = new Map(circuit.parameters.map((one) => [one.name, one]));
  const groups = new Map<string, ClearanceGroup>();
  for (const element of elementsOf(circuit))
    for (const key of Object.keys(element)) {
      const kind = kindOf(element, key);
      const parameter = `${String(element.id)}.${key}`;
      if (!kind || circuit.network.parameters[parameter] === undefined) continue;
      const from = filled.get(parameter);
      const name =
        from?.repair ??
        `${String(element.id).replace(NUMBERED, '').replaceAll('-', ' ')} ${UNMEASURED_NAMES[kind]}`;
      const before = groups.get(`${kind} ${name}`);
      groups.set(`${kind} ${name}`, {
        kind,
        name,
        parameters: [...(before?.parameters ?? []), parameter],
        measured:
          (before?.measured ?? true) &&
          known === 'measured' &&
          from !== undefined &&
          from.measured !== undefined,
      });
    }
  return [...groups.values()];
}
