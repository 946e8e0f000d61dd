import { failed, type Outcome, ok } from '../issue.ts';
import { linear, standardUncertainty, type Uncertain } from '../uncertainty/uncertain.ts';
import type { CompiledNetwork } from './compiled.ts';
import { type DrawnNetwork, drawnIssues, leversOf } from './drawn.ts';
import { PreparedNetwork } from './prepared.ts';
import { conditionIssues, nodeIn, notConverged } from './running-issues.ts';
import type { RunningPoint } from './trials.ts';

export interface BandPoint {
  /** Pressure [Pa] with what every source of doubt leaves in it, to first order. */
  readonly pressure: Uncertain;
  /** By lever (`element.parameter` or the share's name): change of the pressure for one standard uncertainty [Pa]. */
  readonly effects: ReadonlyMap<string, number>;
}

/**
 * First-order band at several running conditions.
 *
 *     dp_g/dx = −λ · ∂r/∂x,   J λ = e_g
 *
 * J, the slopes of the balance, is its own transpose, so one solve more with its factor gives the answers to all
 * parameters at once. ∂r/∂x is a central difference one standard uncertainty wide, at fixed pressures.
 *
 * @source jcgm-100 5.1.3
 */
export function pressureBand(
  network: CompiledNetwork,
  {
    drawn,
    running,
    node: name,
  }: { readonly drawn: DrawnNetwork; readonly running: readonly RunningPoint[]; readonly node?: string },
): Outcome<BandPoint[]> {
  const node = nodeIn(network, name);
  if (!node.ok) return node;
  const issues = [
    ...drawnIssues(network, drawn),
    ...running.flatMap(({ speed, temperature }) => conditionIssues(speed, temperature)),
  ];
  if (issues.length > 0) return failed(...issues);
  const prepared = new PreparedNetwork(network);
  const levers = leversOf(network, prepared, drawn).filter(({ of }) => of.terms.length > 0);
  const n = network.nodes.length;
  const high = new Float64Array(n);
  const state = prepared.coldStart();
  const points: BandPoint[] = [];
  for (const { speed, temperature } of running) {
    const conditions = prepared.conditionsAt(speed, temperature);
    prepared.at(conditions);
    const steps = prepared.solve(state);
    if (steps < 0) return failed(notConverged(steps, prepared.residual(state)));
    const answers = prepared.answersTo(node.value, state);
    const slopes = levers.map(({ of, put, held }) => {
      const u = standardUncertainty(of);
      const above = held(of.value + u);
      const below = held(of.value - u);
      put(above);
      prepared.at(conditions);
      high.set(prepared.imbalanceAt(state).subarray(0, n));
      put(below);
      prepared.at(conditions);
      const low = prepared.imbalanceAt(state);
      put(of.value);
      let sum = 0;
      for (let i = 0; i < n; i++) sum -= answers[i]! * (high[i]! - low[i]!);
      return above > below ? sum / (above - below) : 0;
    });
    points.push({
      pressure: {
        value: state[node.value]!,
        terms: linear(levers.map(({ of }, i) => ({ factor: slopes[i]!, of }))).terms,
      },
      effects: new Map(
        levers.map(({ name: lever, of }, i) => [lever, slopes[i]! * standardUncertainty(of)] as const),
      ),
    });
  }
  return ok(points);
}
