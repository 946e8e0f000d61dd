import type { Issue, Outcome } from '../issue.ts';
import { type BareNumbers, gotInWords } from '../units/read-quantity.ts';
import { kindOfAlike, readAlike } from './alike.ts';
import type { Calculator } from './calculator.ts';
import type { Field, Fields, Inputs } from './field.ts';
import { nearestWord } from './nearest.ts';
import { readField } from './read-field.ts';

type Given = Readonly<Record<string, unknown>>;

/** Everything that is wrong with an input at once, or the input as `compute` wants it with its fallbacks filled in. */
export function readInput(
  calculator: Calculator,
  raw: unknown,
  reading: BareNumbers,
): Outcome<Inputs<Fields>> {
  if (raw === null || typeof raw !== 'object' || Array.isArray(raw))
    return {
      ok: false,
      issues: [
        {
          code: 'input/not-an-object',
          at: '',
          got: gotInWords(raw),
          wanted: `an object with ${Object.keys(calculator.input).join(', ')}`,
          message: `${calculator.name} takes one object of named inputs. Its example shows how one looks.`,
        },
      ],
    };
  const given = raw as Given;
  const issues: Issue[] = unknownKeys(calculator, given);
  const values: Record<string, unknown> = {};
  const kind = kindOfAlike(calculator, given);
  if (!kind.ok) return { ok: false, issues: [...issues, ...kind.issues] };
  if (kind.value) values.kind = kind.value;
  for (const [key, field] of Object.entries(calculator.input)) {
    if (!isGiven(given, key)) {
      if (field.required) issues.push(missing(key, field));
      else if ('fallback' in field && field.fallback !== undefined) values[key] ??= field.fallback;
      continue;
    }
    const read =
      field.type === 'alike'
        ? readAlike(field, given[key], kind.value ?? 'ratio', reading)
        : readField(field, given[key], reading);
    if (read.ok) values[key] = read.value;
    else
      issues.push(
        ...read.issues.map((found) => ({ ...found, at: found.at === '' ? key : `/${key}${found.at}` })),
      );
  }
  issues.push(...groupIssues(calculator, given));
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: values as Inputs<Fields> };
}

const isGiven = (given: Given, key: string): boolean => Object.hasOwn(given, key) && given[key] !== undefined;

function unknownKeys(calculator: Calculator, given: Given): Issue[] {
  const known = Object.keys(calculator.input);
  return Object.keys(given)
    .filter((key) => !Object.hasOwn(calculator.input, key))
    .map((key) => {
      const near = nearestWord(key, known);
      const shown = gotInWords(key);
      return {
        code: 'input/unknown',
        at: shown,
        got: shown,
        wanted: known.join(', '),
        message: `${calculator.name} has no input "${shown}". ${near ? `Did you mean "${near}"?` : `It takes ${known.join(', ')}.`}`,
      };
    });
}

const missing = (key: string, field: Field): Issue => ({
  code: 'input/missing',
  at: key,
  got: 'nothing',
  wanted: field.doc,
  message: `"${key}" is missing: ${field.doc}. Nothing is assumed for it; give it.`,
});

const named = (keys: readonly string[]): string => keys.join(' with ');

/** Inputs that exclude each other, come together, or of which one at least is needed. */
function groupIssues(calculator: Calculator, given: Given): Issue[] {
  const has = (key: string): boolean => isGiven(given, key);
  const issues: Issue[] = [];
  for (const groups of calculator.exactlyOne ?? []) {
    const whole = groups.filter((group) => group.every(has));
    // A key that belongs to a group given whole does not call for the other groups it is in.
    const settled = new Set(whole.flat());
    const begun = groups.filter(
      (group) => !group.every(has) && group.some((key) => has(key) && !settled.has(key)),
    );
    const wanted = groups.map(named).join(', or ');
    if (whole.length + begun.length > 1)
      issues.push({
        code: 'input/conflict',
        at: [...whole, ...begun].flat().filter(has).at(-1) ?? '',
        got: [...whole, ...begun].flat().filter(has).join(', '),
        wanted: `one of: ${wanted}`,
        message: `These exclude each other. Give one of ${wanted}, and leave the others out.`,
      });
    else if (whole.length === 0) {
      const lacking = begun[0]?.filter((key) => !has(key)) ?? [];
      issues.push({
        code: 'input/missing',
        at: lacking[0] ?? groups[0]?.[0] ?? '',
        got: begun.length > 0 ? named(begun.flat().filter(has)) : 'none of them',
        wanted: `one of: ${wanted}`,
        message:
          lacking.length > 0
            ? `Give ${lacking.join(' and ')} as well.`
            : `One of these decides the answer: ${wanted}. Give one.`,
      });
    }
  }
  for (const keys of calculator.together ?? []) {
    const there = keys.filter(has);
    if (there.length === 0 || there.length === keys.length) continue;
    for (const key of keys.filter((k) => !has(k)))
      if (!issues.some((i) => i.at === key && i.code === 'input/missing'))
        issues.push({
          code: 'input/missing',
          at: key,
          got: `only ${there.join(', ')}`,
          wanted: keys.join(', '),
          message: `${keys.join(', ')} come together. Give "${key}" as well, or none of them.`,
        });
  }
  for (const keys of calculator.atLeastOne ?? []) {
    if (keys.some(has)) continue;
    issues.push({
      code: 'input/missing',
      at: keys[0] ?? '',
      got: 'none of them',
      wanted: keys.join(' or '),
      message: `At least one of ${keys.join(', ')} is needed. Give one.`,
    });
  }
  return issues;
}
