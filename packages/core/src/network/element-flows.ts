import type { Entries } from './columns.ts';
import type { Flat } from './flat.ts';

/** Adds up by element what the balance last let through each entry; films are asked here, it takes them by node. */
export function addElementFlows(flat: Flat, p: Float64Array, flows: Float64Array): void {
  const { films } = flat;
  for (let i = 0; i < films.size; i++)
    films.flow[i] = films.conductance[i]! * (p[films.from[i]!]! - p[films.to[i]!]! + films.head[i]!);
  const add = ({ size, element, flow }: Entries): void => {
    for (let i = 0; i < size; i++) flows[element[i]!]! += flow[i]!;
  };
  add(films);
  add(flat.drawn);
  add(flat.deliveries);
  add(flat.holes);
  add(flat.valves);
  add(flat.reliefs);
  add(flat.passages);
  add(flat.owns);
}
