import { failed, type Outcome, ok } from '../issue.ts';
import type { CompiledNetwork } from './compiled.ts';
import { workshopOf } from './network.ts';
import { REPEATED } from './prepared.ts';
import { conditionIssues, nodeIn, replacementIssues } from './running-issues.ts';

export interface RunningGrid {
  /** Of the crank [rad/s], best in rising order: each answer starts from its neighbours'. */
  readonly speeds: readonly number[];
  /** Of the sump [K]; one alone makes a curve. */
  readonly temperatures: readonly number[];
  /** `element.parameter` → SI, in place of the file's. */
  readonly parameters?: Readonly<Record<string, number>>;
  /** The gauge's when not given. */
  readonly node?: string;
}

export interface PressureMap {
  /** Row by row, one row a temperature [Pa]; undefined where no balance was found. */
  readonly pressures: readonly (number | undefined)[];
  /** Points without a balance: never left out silently. */
  readonly unsolved: readonly { readonly speed: number; readonly temperature: number }[];
}

/** Beside these the other is checked alone. */
const FIT = { speed: 1, temperature: 300 } as const;

/** Pressure of a node over speeds and temperatures. */
export function pressureMap(network: CompiledNetwork, grid: RunningGrid): Outcome<PressureMap> {
  const node = nodeIn(network, grid.node);
  if (!node.ok) return node;
  const issues = [
    ...replacementIssues(network, grid.parameters),
    ...grid.speeds.flatMap((speed) => conditionIssues(speed, FIT.temperature)),
    ...grid.temperatures.flatMap((temperature) => conditionIssues(FIT.speed, temperature)),
  ];
  if (issues.length > 0) return failed(...issues);
  const prepared = workshopOf(network, grid.parameters);
  const { speeds, temperatures } = grid;
  const pressures: (number | undefined)[] = [];
  const unsolved: { speed: number; temperature: number }[] = [];
  const n = network.nodes.length + 1;
  // The last two answers of this row, and the first of the row before.
  const state = new Float64Array(n);
  const last = new Float64Array(n);
  const before = new Float64Array(n);
  const rowStart = prepared.coldStart();
  for (const temperature of temperatures) {
    let known = 0;
    const film = prepared.conditionsAt(speeds[0] ?? 1, temperature);
    for (let s = 0; s < speeds.length; s++) {
      prepared.at(film.at(speeds[s]!));
      if (known === 0) state.set(rowStart);
      else if (known === 1) state.set(last);
      else {
        const ratio = (speeds[s]! - speeds[s - 1]!) / (speeds[s - 1]! - speeds[s - 2]!);
        // Beyond twice the last step a straight line is no guess any more.
        const share = ratio > 0 && ratio <= 2 ? ratio : 0;
        for (let i = 0; i < n; i++) state[i] = last[i]! + share * (last[i]! - before[i]!);
      }
      const solved = prepared.solve(state, REPEATED) > 0;
      pressures.push(solved ? state[node.value]! : undefined);
      if (solved) {
        if (s === 0) rowStart.set(state);
        before.set(last);
        last.set(state);
        known++;
      } else {
        unsolved.push({ speed: speeds[s]!, temperature });
        known = 0;
      }
    }
  }
  return ok({ pressures, unsolved });
}
