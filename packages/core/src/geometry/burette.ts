import { type CubicMetre, cubicMetre } from '../units/si.ts';

/** Capacity to limit of class A, both in mL. */
const CLASS_A: Readonly<Record<string, number>> = { '10': 0.02, '25': 0.03, '50': 0.05, '100': 0.1 };

/**
 * Limit of error of a burette, the tool with which a chamber is filled and so measured; class B has twice class A's.
 * Nothing for a capacity that is not listed.
 *
 * @source astm-e287
 */
export function buretteLimit(capacity: CubicMetre, accuracy: 'A' | 'B'): CubicMetre | undefined {
  const found = CLASS_A[String(Math.round(capacity * 1e6))];
  return found === undefined ? undefined : cubicMetre(found * (accuracy === 'A' ? 1 : 2) * 1e-6);
}
