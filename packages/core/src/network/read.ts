import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import type { QuantityKind } from '../units/kinds.ts';
import { type Bounds, readQuantity } from '../units/read-quantity.ts';
import type { Choices, Law } from './element.ts';
import type { Fluid, FluidInput } from './fluid.ts';
import { COMMON_PARAMETERS, COMMON_TOGETHER, LAWS, type LawName } from './laws.ts';
import type { ElementInput } from './schema.ts';

/** What was got, short enough to print. */
export const shown = (value: unknown): string => {
  const text = value === undefined ? 'nothing' : typeof value === 'string' ? value : JSON.stringify(value);
  return text.length > 80 ? `${text.slice(0, 77)}...` : text;
};

export const issue = (code: string, at: string, got: unknown, wanted: string, message: string): Issue => ({
  code: `network/${code}`,
  at,
  got: shown(got),
  wanted,
  message,
});

/** A quantity of the file in SI, within its bounds. A file is JSON, so a bare number in it is SI. */
export function quantityAt(at: string, value: unknown, kind: QuantityKind, bounds: Bounds): Outcome<number> {
  const read = readQuantity(value, kind, bounds, { bareNumbersAreSi: true });
  return read.ok ? read : failed(...read.issues.map((found) => ({ ...found, at })));
}

const POSITIVE = { above: 0 } as const;

export function fluidOf(input: FluidInput): Outcome<Fluid> {
  const issues: Issue[] = [];
  const read = (key: string, value: unknown, kind: QuantityKind): number => {
    const outcome = quantityAt(`/fluid/${key}`, value, kind, POSITIVE);
    if (outcome.ok) return outcome.value;
    issues.push(...outcome.issues);
    return Number.NaN;
  };
  if ('dynamic_viscosity' in input) {
    const viscosity = read('dynamic_viscosity', input.dynamic_viscosity, 'dynamic-viscosity');
    const density = { at15: read('density', input.density, 'density'), slope: 0 };
    return issues.length > 0 ? failed(...issues) : ok({ form: 'constant', viscosity, density });
  }
  const at15 = read('density15', input.density15, 'density');
  if (input.density_slope !== undefined && input.density_coefficient !== undefined)
    issues.push(
      issue(
        'excluded',
        '/fluid/density_coefficient',
        input.density_coefficient,
        'density_slope or density_coefficient, not both',
        'Both say how density falls with temperature. Leave one out.',
      ),
    );
  const slope =
    input.density_slope ??
    (input.density_coefficient === undefined ? undefined : input.density_coefficient * at15);
  const density = slope === undefined ? { at15 } : { at15, slope };
  if ('vogel' in input)
    return issues.length > 0 ? failed(...issues) : ok({ form: 'vogel', ...input.vogel, density });
  const kv40 = read('kv40', input.kv40, 'kinematic-viscosity');
  const kv100 = read('kv100', input.kv100, 'kinematic-viscosity');
  if (kv40 <= kv100)
    issues.push(
      issue(
        'viscosity-order',
        '/fluid/kv100',
        input.kv100,
        'less than kv40',
        'Oil is thinner at 100 °C than at 40 °C. Check which figure is which.',
      ),
    );
  return issues.length > 0 ? failed(...issues) : ok({ form: 'line', kv40, kv100, density });
}

export interface ReadElement {
  readonly law: Law;
  /** SI by name; NaN where an optional one was not given. */
  readonly parameters: Record<string, number>;
  readonly choices: Choices;
}

const PLACE = new Set(['id', 'law', 'from', 'to']);

/** One element's parameters, checked against its law. */
export function elementOf(element: ElementInput, at: string): Outcome<ReadElement> {
  if (!Object.hasOwn(LAWS, element.law))
    return failed(
      issue(
        'unknown-law',
        `${at}/law`,
        element.law,
        Object.keys(LAWS).join(', '),
        `No element of this network follows a law called "${shown(element.law)}". Use one of those listed.`,
      ),
    );
  const law: Law = LAWS[element.law as LawName];
  const table = { ...COMMON_PARAMETERS, ...law.parameters };
  const issues: Issue[] = [];
  const parameters: Record<string, number> = {};
  for (const [key, spec] of Object.entries(table)) {
    const value = element[key];
    if (value === undefined) {
      parameters[key] = spec.fallback ?? Number.NaN;
      if (spec.required) issues.push(missing(at, [key], element.law));
      continue;
    }
    const outcome = quantityAt(`${at}/${key}`, value, spec.kind, spec);
    if (outcome.ok) parameters[key] = outcome.value;
    else issues.push(...outcome.issues);
  }
  const choices: Record<string, string> = {};
  for (const [key, spec] of Object.entries(law.choices ?? {})) {
    const value = element[key] ?? spec.fallback;
    if (typeof value === 'string' && spec.choices.includes(value)) choices[key] = value;
    else
      issues.push(
        issue(
          'unknown-choice',
          `${at}/${key}`,
          value,
          spec.choices.join(' or '),
          `Choose ${spec.choices.join(' or ')}.`,
        ),
      );
  }
  for (const key of Object.keys(element))
    if (!PLACE.has(key) && !(key in table) && !(law.choices && key in law.choices))
      issues.push(
        issue(
          'unknown-key',
          `${at}/${key}`,
          key,
          Object.keys(table).join(', '),
          `A ${element.law} has no "${shown(key)}". Take it out, or use one of the names listed.`,
        ),
      );
  issues.push(...groupIssues(element, law, at));
  if (issues.length > 0) return failed(...issues);
  const fault = law.fault?.(parameters, choices);
  if (fault)
    return failed(
      issue(
        'impossible',
        `${at}/${fault.key}`,
        element[fault.key],
        fault.wanted,
        `This needs ${fault.wanted}.`,
      ),
    );
  return ok({ law, parameters, choices });
}

const missing = (at: string, keys: readonly string[], law: string): Issue =>
  issue(
    'missing',
    `${at}/${keys[0]}`,
    undefined,
    keys.join(', '),
    `The ${law} needs ${keys.join(' and ')}. Add it, with its unit.`,
  );

function groupIssues(element: ElementInput, law: Law, at: string): Issue[] {
  const issues: Issue[] = [];
  for (const group of [...COMMON_TOGETHER, ...(law.together ?? [])]) {
    const absent = group.filter((key) => element[key] === undefined);
    if (absent.length > 0 && absent.length < group.length) issues.push(missing(at, absent, element.law));
  }
  for (const groups of law.exactlyOne ?? []) {
    const touched = groups.filter((group) => group.some((key) => element[key] !== undefined));
    const alternatives = groups.map((group) => group.join(' with ')).join(', or ');
    if (touched.length === 0) issues.push(missing(at, [alternatives], element.law));
    else if (touched.length > 1)
      issues.push(
        issue(
          'excluded',
          `${at}/${touched[1]![0]}`,
          touched.flat().join(', '),
          `only one of: ${alternatives}`,
          'These say the same thing twice. Leave one of them out.',
        ),
      );
    else {
      const absent = touched[0]!.filter((key) => element[key] === undefined);
      if (absent.length > 0) issues.push(missing(at, absent, element.law));
    }
  }
  return issues;
}
