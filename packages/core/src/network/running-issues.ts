import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import { type CompiledNetwork, HEAT } from './compiled.ts';
import type { PlacedElement } from './flat.ts';
import { issue, quantityAt, shown } from './read.ts';

/** Number of a node by its name; the gauge's when none is given. */
export function nodeIn(network: CompiledNetwork, name = network.gauge): Outcome<number> {
  const found = name === undefined ? -1 : network.nodes.indexOf(name);
  if (found >= 0) return ok(found);
  return failed(
    issue(
      'unknown-node',
      '/node',
      name,
      network.nodes.join(', '),
      'Say at which node the pressure is wanted, or which the gauge reads.',
    ),
  );
}

export const notConverged = (steps: number, residual: number): Issue =>
  issue(
    'not-converged',
    '',
    `an imbalance of ${residual} m³/s after ${-steps} steps`,
    'a balance at every node',
    'No balance of flows was found. Check for a part of the circuit that nothing feeds or drains, and for sizes far out of proportion.',
  );

/** What keeps a speed and a temperature from being run at. */
export function conditionIssues(speed: number | undefined, temperature: number | undefined): Issue[] {
  const issues: Issue[] = [];
  if (!(speed !== undefined && speed > 0 && Number.isFinite(speed)))
    issues.push(
      issue('missing', '/speed', speed, 'speed of the crank, over 0', 'Say at which speed the crank turns.'),
    );
  if (!(temperature !== undefined && temperature > 0 && temperature <= HEAT.max))
    issues.push(
      issue(
        'missing',
        '/temperature',
        temperature,
        'temperature of the sump',
        'Say how hot the oil in the sump is.',
      ),
    );
  return issues;
}

/** What is wrong with parameters put in place of the file's, each by itself and beside the others. */
export function replacementIssues(
  network: CompiledNetwork,
  wanted: Readonly<Record<string, number>> = {},
): Issue[] {
  const issues: Issue[] = [];
  const replaced = new Map<PlacedElement, Record<string, number>>();
  for (const [name, value] of Object.entries(wanted)) {
    const place = network.inside.places.get(name);
    if (!place) {
      issues.push(
        issue(
          'unknown-parameter',
          `/parameters/${name}`,
          name,
          'element.parameter with a number in the network',
          `The network has no "${shown(name)}" to replace. Check the element's id and the parameter's name.`,
        ),
      );
      continue;
    }
    const { element, key, spec } = place;
    const checked = quantityAt(`/parameters/${name}`, value, spec.kind, spec);
    if (!checked.ok) {
      issues.push(...checked.issues);
      continue;
    }
    const parameters = replaced.get(element) ?? { ...element.parameters };
    parameters[key] = checked.value;
    replaced.set(element, parameters);
  }
  for (const [{ id, law, choices }, parameters] of replaced) {
    const fault = law.fault?.(parameters, choices);
    if (fault)
      issues.push(
        issue(
          'impossible',
          `/parameters/${id}.${fault.key}`,
          parameters[fault.key],
          fault.wanted,
          `This needs ${fault.wanted}.`,
        ),
      );
  }
  return issues;
}
