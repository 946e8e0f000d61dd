import { type Knob, PreparedNetwork, solvedNetwork } from '@fettle/core';
import type { FilledCircuit, FilledParameter } from './circuit.ts';
import type { Running } from './pressure.ts';

/** The pressure at the gauge [Pa] for values of the circuit's parameters, in their order [SI]. */
type GaugeOf = (values: ArrayLike<number>) => number;

/** Below this share of its nominal value a parameter is held: a closed gap leaks nothing, and the network wants a number. */
const LEAST = 1e-4;

/**
 * The one place through which stair, map and narrowing ask for a pressure. Each answer starts from the one before,
 * so that neighbours asked one after the other cost few steps; where no balance is found from there, from afar.
 * The values asked first are held to every check of a single answer.
 *
 * @throws RangeError  when the network finds no balance, or a value is not one its element can have
 */
export function gaugeAt(circuit: FilledCircuit): (running: Running) => GaugeOf {
  const { network, parameters, gauge } = circuit;
  const prepared = new PreparedNetwork(network);
  const node = network.nodes.indexOf(gauge);
  const knobs = parameters.map(({ name }): Knob => {
    const knob = prepared.knob(name);
    if (!knob) throw new RangeError(`The network has no ${name}.`);
    return knob;
  });
  const put = Float64Array.from(knobs, (knob) => prepared.value(knob));
  const state = prepared.coldStart();
  let checked = false;
  return (running) => {
    const conditions = prepared.conditionsAt(running.speed, running.temperature);
    return (values) => {
      for (let i = 0; i < knobs.length; i++) {
        const value = Math.max(values[i]!, parameters[i]!.nominal * LEAST);
        if (value === put[i]) continue;
        put[i] = value;
        prepared.set(knobs[i]!, value);
      }
      if (!checked) {
        const alone = solvedNetwork(network, {
          ...running,
          parameters: Object.fromEntries(parameters.map(({ name }, i) => [name, put[i]!])),
        });
        if (!alone.ok) throw new RangeError(alone.issues[0]!.message);
        checked = true;
      }
      if (!prepared.possible()) throw new RangeError('An element cannot have the sizes it is given.');
      prepared.at(conditions);
      if (prepared.solve(state) < 0) {
        state.set(prepared.coldStart());
        if (prepared.solve(state) < 0) throw new RangeError('No balance of flows was found.');
      }
      return state[node]!;
    };
  };
}

/** As measured, or nominal where nothing was; with the repairs named made. */
export const presentValue = (parameter: FilledParameter, lifted: ReadonlySet<string>): number =>
  lifted.has(parameter.repair) ? parameter.repaired : (parameter.measured?.value ?? parameter.nominal);
