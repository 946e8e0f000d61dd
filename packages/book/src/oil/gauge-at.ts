import { type SolvedNetwork, solvedNetwork } from '@fettle/core';
import type { FilledCircuit, FilledParameter } from './circuit.ts';
import type { Running } from './pressure.ts';

/** The pressure at the gauge [Pa] for values of the circuit's parameters, in their order [SI]. */
export type GaugeOf = (values: ArrayLike<number>) => number;

/** Below this share of its nominal value a parameter is held: a closed gap leaks nothing, and the network wants a number. */
const LEAST = 1e-4;

/**
 * The one place through which stair, map and narrowing ask for a pressure. Each answer starts from the one before,
 * so that neighbours asked one after the other cost few steps.
 *
 * @throws RangeError  when the network finds no balance
 */
export function gaugeAt(circuit: FilledCircuit): (running: Running) => GaugeOf {
  let start: SolvedNetwork['state'] | undefined;
  return (running) => (values) => {
    const answer = solvedNetwork(circuit.network, {
      ...running,
      parameters: Object.fromEntries(
        circuit.parameters.map(({ name, nominal }, i) => [name, Math.max(values[i]!, nominal * LEAST)]),
      ),
      ...(start && { start }),
    });
    if (!answer.ok) throw new RangeError(answer.issues[0]!.message);
    start = answer.value.state;
    return answer.value.pressures[circuit.gauge]!;
  };
}

/** As measured, or nominal where nothing was; with the repairs named made. */
export const presentValue = (parameter: FilledParameter, lifted: ReadonlySet<string>): number =>
  lifted.has(parameter.repair) ? parameter.repaired : (parameter.measured?.value ?? parameter.nominal);
