import {
  type Answered,
  answered,
  CATALOGUE,
  type Calculator,
  calculatorNamed,
  calculatorSchema,
  failed,
  type Issue,
  type Outcome,
  ok,
  SOURCES,
} from '@fettle/core';
import type { Context } from '../context.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { benchUnits, valueCells } from '../words/bench-unit.ts';
import { table, wrapped } from '../words/table.ts';

interface Said {
  readonly schema?: boolean;
  readonly lines?: boolean;
}

export const registerCalc: Register = (program, run) => {
  program
    .command('calc [name] [inputs...]')
    .description(
      'any single calculation, alone: by name and key=value, or JSON on standard input with --json',
    )
    .option('--schema', 'JSON Schema of what goes in and comes out')
    .option('--lines', 'many at once: {"name": …, "input": …} a line in, an answer a line out')
    .addHelpText(
      'after',
      `
Examples:
  fettle calc
  fettle calc preload designation=5/16-18 torque=30lbf.ft nut_factor=0.2 "grade=SAE 5"
  fettle calc oil-viscosity --schema
  echo '{"kv40": "93 cSt", "kv100": "10.8 cSt", "temperature": "93 degC"}' | fettle calc oil-viscosity --json
  fettle calc --lines < many.ndjson`,
    )
    .action((name: string | undefined, inputs: string[], said: Said) =>
      run(async (context) => {
        if (said.lines && name !== undefined)
          return failed({
            code: 'command/bad-use',
            at: 'name',
            got: `--lines and the name "${name}"`,
            wanted: 'one or the other',
            message:
              'With --lines each line names its own calculation: {"name": …, "input": …}. Leave the name out.',
          });
        if (said.lines) return ok(many(context.io.stdin()));
        if (name === undefined && said.schema)
          return failed({
            code: 'command/bad-use',
            at: 'name',
            got: '--schema alone',
            wanted: 'the name of a calculation',
            message: 'Say whose schema: fettle calc NAME --schema. "fettle calc" lists the names.',
          });
        if (name === undefined) return ok(listed());
        const calculator = calculatorNamed(name);
        if (!calculator.ok) return calculator;
        if (said.schema) {
          const schema = calculatorSchema(calculator.value);
          return ok({ json: schema, text: JSON.stringify(schema, null, 2) });
        }
        return one(context, calculator.value, inputs);
      }),
    );
};

function listed(): Reply {
  const calculators = [...CATALOGUE.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
  return {
    json: calculators.map(({ name, sentence }) => ({ name, sentence })),
    text: table(calculators.map(({ name, sentence }) => [name, sentence])).join('\n'),
  };
}

function one(context: Context, calculator: Calculator, inputs: readonly string[]): Outcome<Reply> {
  const byKey = inputs.length > 0 || context.common.json !== true;
  const raw = byKey ? keyValues(calculator, inputs) : parsed(context.io.stdin());
  if (!raw.ok) return raw;
  const answer = answered(calculator, raw.value, { bareNumbersAreSi: !byKey });
  if ('issues' in answer) return failed(...answer.issues);
  return ok({ json: answer, text: answerText(calculator, raw.value, answer) });
}

function keyValues(calculator: Calculator, inputs: readonly string[]): Outcome<Record<string, unknown>> {
  const values: Record<string, unknown> = {};
  const issues: Issue[] = [];
  for (const input of inputs) {
    const cut = input.indexOf('=');
    const key = cut < 0 ? input : input.slice(0, cut);
    const fault = cut < 1 ? 'key=value' : Object.hasOwn(values, key) ? 'each key once' : undefined;
    if (fault)
      issues.push({
        code: 'input/not-key-value',
        at: input,
        got: input,
        wanted: fault,
        message: `"${input}" is not taken: ${calculator.name} wants ${fault}, such as ${Object.keys(calculator.input)[0]}=…`,
      });
    else values[key] = input.slice(cut + 1);
  }
  return issues.length > 0 ? failed(...issues) : ok(values);
}

function parsed(text: string): Outcome<unknown> {
  try {
    return ok(JSON.parse(text));
  } catch (error) {
    return failed({
      code: 'input/not-json',
      at: '',
      got: text.trim() === '' ? 'nothing' : text.trim().slice(0, 80),
      wanted: 'one JSON object',
      message: `Standard input is no JSON: ${error instanceof Error ? error.message : String(error)}. Give one JSON object.`,
    });
  }
}

/** One answer a line, in order; blank lines are skipped. Status 1 when any answer was issues. */
function many(text: string): Reply {
  const answers = text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line): Answered => {
      const request = parsed(line);
      if (!request.ok) return { issues: request.issues };
      const { name, input } = Object(request.value) as { name?: unknown; input?: unknown };
      const calculator = calculatorNamed(name);
      return calculator.ok
        ? answered(calculator.value, input, { bareNumbersAreSi: true })
        : { issues: calculator.issues };
    });
  const lines = answers.map((answer) => JSON.stringify(answer)).join('\n');
  return {
    json: answers,
    text: lines,
    lines: true,
    status: answers.some((answer) => 'issues' in answer) ? 1 : 0,
  };
}

function answerText(
  calculator: Calculator,
  raw: unknown,
  answer: Extract<Answered, { results: unknown }>,
): string {
  const given = Object.entries(raw as Record<string, unknown>).map(([key, value]) => [key, String(value)]);
  const bench = benchUnits(calculator, raw as Record<string, unknown>);
  const results = Object.entries(answer.results).map(([key, { value, unit }]) => [
    key,
    ...valueCells(value, unit, bench),
    calculator.output[key]?.doc ?? 'as it was taken',
  ]);
  return [
    calculator.sentence,
    '',
    ...calculator.formula.map((line) => `  ${line}`),
    '',
    ...table(given, '  '),
    '',
    ...table(results, '  '),
    ...answer.cautions.flatMap(({ message }) => ['', ...wrapped(`Caution: ${message}`, 100)]),
    '',
    ...answer.sources.flatMap((key) => wrapped(`Source: ${sourceWords(key)}`, 106, '  ')),
    ...wrapped(`Holds for: ${calculator.range}`, 106, '  '),
  ].join('\n');
}

/** A source as a reader can look it up. */
function sourceWords(key: string): string {
  const source = SOURCES[key];
  if (!source) return key;
  return (
    [source.title, source.edition, source.where].filter((part) => part !== undefined).join(', ') +
    ` (${source.checked})`
  );
}
