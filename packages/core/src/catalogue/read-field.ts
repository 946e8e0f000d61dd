import type * as z from 'zod';
import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import { type BareNumbers, gotInWords, readQuantity } from '../units/read-quantity.ts';
import type { AlikeField, Field, QuantitiesField, StructureField } from './field.ts';
import { nearestWord } from './nearest.ts';

const LONGEST_TEXT = 200;
const LONGEST_LIST = 10_000;

const issue = (code: string, raw: unknown, wanted: string, message: string): Outcome<never> =>
  failed({ code, at: '', got: gotInWords(raw), wanted, message });

/** One input as its field wants it. Places within it are left relative: '' or `/0/key`. */
export function readField(
  field: Exclude<Field, AlikeField>,
  raw: unknown,
  reading: BareNumbers,
): Outcome<unknown> {
  switch (field.type) {
    case 'quantity':
      return readQuantity(raw, field.kind, field.range, reading);
    case 'quantities':
      return readQuantities(field, raw, reading);
    case 'text':
      return readText(raw, field.example);
    case 'choice':
      return readChoice(raw, field.choices);
    case 'structure':
      return readStructure(field, raw);
  }
}

function readText(raw: unknown, example: string): Outcome<string> {
  const wanted = `a text such as ${example}`;
  if (typeof raw !== 'string')
    return issue('input/wrong-type', raw, wanted, `A text is wanted here, such as "${example}".`);
  const text = raw.trim();
  if (text === '')
    return issue('input/missing', raw, wanted, `Nothing is written here. Write, for example, "${example}".`);
  if (text.length > LONGEST_TEXT)
    return issue(
      'input/too-long',
      raw,
      wanted,
      `The text is ${text.length} characters long; ${LONGEST_TEXT} are read.`,
    );
  return ok(text);
}

function readChoice(raw: unknown, choices: readonly string[]): Outcome<string> {
  if (typeof raw === 'string' && choices.includes(raw.trim())) return ok(raw.trim());
  const near = typeof raw === 'string' ? nearestWord(raw.trim(), choices) : undefined;
  return issue(
    'input/not-a-choice',
    raw,
    choices.join(', '),
    near
      ? `Did you mean "${near}"? It is one of ${choices.join(', ')}.`
      : `Choose one of ${choices.join(', ')}.`,
  );
}

/** A list, or at the command line one text with commas or semicolons between the quantities. */
function readQuantities(
  field: QuantitiesField,
  raw: unknown,
  reading: BareNumbers,
): Outcome<readonly number[]> {
  const list = typeof raw === 'string' ? raw.split(/[,;]/).map((part) => part.trim()) : raw;
  if (!Array.isArray(list))
    return issue(
      'input/wrong-type',
      raw,
      'a list of quantities',
      'A list is wanted here, each with its unit.',
    );
  if (list.length > LONGEST_LIST)
    return issue(
      'input/too-long',
      raw,
      `at most ${LONGEST_LIST}`,
      `The list has ${list.length} entries; ${LONGEST_LIST} are read.`,
    );
  if (typeof raw === 'string' && raw.trim() === '') return ok([]);
  const values: number[] = [];
  const issues: Issue[] = [];
  list.forEach((item: unknown, i) => {
    const read = readQuantity(item, field.kind, field.range, reading);
    if (read.ok) values.push(read.value);
    else issues.push(...read.issues.map((found) => ({ ...found, at: `/${i}${found.at}` })));
  });
  return issues.length > 0 ? { ok: false, issues } : ok(values);
}

/** Nested data; at the command line it is written as JSON. */
function readStructure(field: StructureField, raw: unknown): Outcome<unknown> {
  let data = raw;
  if (typeof raw === 'string') {
    try {
      data = JSON.parse(raw);
    } catch {
      return issue(
        'input/not-json',
        raw,
        'JSON',
        'A structure is written as JSON here. Check brackets, commas and quotes.',
      );
    }
  }
  const read = field.schema.safeParse(data);
  return read.success
    ? ok(read.data)
    : { ok: false, issues: read.error.issues.map((found) => structureIssue(found, data)) };
}

const pointer = (path: readonly PropertyKey[]): string =>
  path.map((key) => `/${String(key).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');

function valueAt(data: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (at, key) =>
      at !== null && typeof at === 'object' && Object.hasOwn(at, key)
        ? (at as Record<PropertyKey, unknown>)[key]
        : undefined,
    data,
  );
}

/** The schema's own words, unless a quantity inside it has already said what was wrong. */
function structureIssue(found: z.core.$ZodIssue, data: unknown): Issue {
  const at = pointer(found.path);
  const known = found.code === 'custom' ? (found.params?.issue as Issue | undefined) : undefined;
  if (known) return { ...known, at };
  const raw = valueAt(data, found.path);
  const code =
    found.code === 'unrecognized_keys'
      ? 'input/unknown'
      : raw === undefined
        ? 'input/missing'
        : 'input/wrong-type';
  return {
    code,
    at,
    got: found.code === 'unrecognized_keys' ? found.keys.join(', ').slice(0, 60) : gotInWords(raw),
    wanted: found.code === 'invalid_type' ? found.expected : 'what the schema says',
    message: `${found.message.slice(0, 300)}. Compare it with the schema of this calculator.`,
  };
}
