import { linear, term, type Uncertain, uncertain } from '@fettle/core';
import { doubtsOf, OWN_SHARE } from '../diagnosis/doubts.ts';
import { FaultyNetwork, type Setting } from '../diagnosis/faulty-network.ts';
import type { FilledCircuit } from './circuit.ts';
import type { Running } from './pressure.ts';

/** The circuit is filled with one oil, whatever its name. */
const GRADE = 'as filled';

/**
 * A predicted pressure with the doubt of the model itself beside that of the readings, to first order.
 *
 * Each constant that is assumed moves the circuit by one standard deviation either way, and half of what the gauge
 * moves by is its term. Terms go by the constant's name, so that two conditions share them. Added to each prediction is
 * a share of its own: speed and temperature as read, what the model leaves out. The deviations are guesses, no source;
 * they are the same by which gauge readings are weighed.
 *
 * @param predicted  pressure at the gauge [Pa], with what the readings leave open
 * @throws RangeError  when the network finds no balance with a constant moved
 */
export function withModelDoubt(circuit: FilledCircuit, running: Running, predicted: Uncertain): Uncertain {
  const { speed, temperature } = running;
  const network = new FaultyNetwork(new Map([[GRADE, circuit]]), 'measured', speed);
  const setting: Setting = { rig: 'engine', speed, temperature, grade: GRADE };
  const own = OWN_SHARE * Math.abs(predicted.value);
  const terms = doubtsOf(circuit, 'measured').map(({ id, at }) => {
    const [rise, fall] = [1, -1].map((z) => network.read(setting, {}, [at(z)]));
    return term(`oil-model:${id}`, (rise! - fall!) / 2);
  });
  return linear([
    { factor: 1, of: predicted },
    { factor: 1, of: uncertain(0, ...terms, term(`oil-model:${speed} rad/s ${temperature} K`, own)) },
  ]);
}
