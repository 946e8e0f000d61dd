import { type Caution, failed, type Outcome, ok } from '../issue.ts';
import { networkCautions } from './cautions.ts';
import type { CompiledNetwork } from './compiled.ts';
import { PreparedNetwork } from './prepared.ts';
import { conditionIssues, notConverged, replacementIssues } from './running-issues.ts';

export { type CompiledNetwork, compiledNetwork } from './compiled.ts';

export interface RunningConditions {
  /** Of the crank [rad/s]; the file's when not given. */
  readonly speed?: number;
  /** Of the oil in the sump [K]; the file's when not given. */
  readonly temperature?: number;
  /** `element.parameter` → SI, in place of the file's. */
  readonly parameters?: Readonly<Record<string, number>>;
  /** Pressures of an earlier answer, in the order of `nodes` [Pa]: a near start saves steps. */
  readonly start?: ArrayLike<number>;
}

export interface SolvedNetwork {
  /** By node [Pa, gauge]. */
  readonly pressures: Readonly<Record<string, number>>;
  /** By element, all its equal ones together [m³/s]. */
  readonly flows: Readonly<Record<string, number>>;
  /** The pressures in the order of `nodes`, to start the next solve from. */
  readonly state: Float64Array;
  readonly iterations: number;
  /** Greatest imbalance of a node that is left [m³/s]. */
  readonly residual: number;
  /** Where the laws that were used no longer hold. */
  readonly cautions: readonly Caution[];
}

/** Balances the network at a speed and a temperature. */
export function solvedNetwork(
  network: CompiledNetwork,
  conditions: RunningConditions,
): Outcome<SolvedNetwork> {
  const speed = conditions.speed ?? network.speed;
  const temperature = conditions.temperature ?? network.temperature;
  const issues = [
    ...conditionIssues(speed, temperature),
    ...replacementIssues(network, conditions.parameters),
  ];
  if (issues.length > 0) return failed(...issues);

  const prepared = workshopOf(network, conditions.parameters);
  prepared.at(prepared.conditionsAt(speed!, temperature!));
  const n = network.nodes.length;
  const state = prepared.coldStart();
  if (conditions.start?.length === n) state.set(conditions.start);
  const steps = prepared.solve(state);
  const residual = prepared.residual(state);
  if (steps < 0) return failed(notConverged(steps, residual));
  const flows = prepared.flows(state);
  return ok({
    pressures: Object.fromEntries(network.nodes.map((node, i) => [node, state[i]!])),
    flows: Object.fromEntries(network.elements.map((id, i) => [id, flows[i]!])),
    state: state.slice(0, n),
    iterations: steps,
    residual,
    cautions: [...networkCautions(network, state, conditions.parameters), ...prepared.stretched(state)],
  });
}

/** The network prepared, as the file has it but for some parameters; whoever asks next changes it. */
export function workshopOf(
  network: CompiledNetwork,
  parameters: Readonly<Record<string, number>> = {},
): PreparedNetwork {
  const { workshop } = network.inside;
  workshop.prepared ??= new PreparedNetwork(network);
  const { prepared } = workshop;
  prepared.restore();
  for (const [name, value] of Object.entries(parameters)) prepared.set(prepared.knob(name)!, value);
  return prepared;
}
