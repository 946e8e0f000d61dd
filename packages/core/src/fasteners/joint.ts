import type { NewtonPerMetre } from '../units/si.ts';

/**
 * Share of an outside load that the bolt carries, C = k_b/(k_b + k_m).
 *
 * @source shigley-fasteners
 */
export function jointConstant(bolt: NewtonPerMetre, members: NewtonPerMetre): number {
  return bolt / (bolt + members);
}
