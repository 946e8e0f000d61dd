import * as z from 'zod';
import { QUANTITY_KINDS } from '../units/kinds.ts';
import { quantitySchema } from '../units/quantity-in.ts';
import type { Calculator, OutputField } from './calculator.ts';
import type { Field } from './field.ts';

type Schema = Record<string, unknown>;

export interface CalculatorSchema {
  readonly name: string;
  readonly sentence: string;
  readonly formula: readonly string[];
  readonly range: string;
  readonly sources: readonly string[];
  readonly example: Readonly<Record<string, unknown>>;
  readonly input: Schema;
  readonly output: Schema;
}

const DIALECT = 'https://json-schema.org/draft/2020-12/schema';

/** JSON Schema 2020-12 of what goes in and what comes out, with the UCUM unit of each quantity as `x-ucum`. */
export function calculatorSchema(calculator: Calculator): CalculatorSchema {
  const { name, sentence, formula, range, sources, example } = calculator;
  return {
    name,
    sentence,
    formula,
    range,
    sources,
    example,
    input: inputSchema(calculator),
    output: outputSchema(calculator),
  };
}

const mapped = <V>(record: Readonly<Record<string, V>>, schema: (value: V) => Schema): Schema =>
  Object.fromEntries(Object.entries(record).map(([key, value]) => [key, schema(value)]));

function inputSchema({
  name,
  sentence,
  input,
  example,
  exactlyOne,
  together,
  atLeastOne,
}: Calculator): Schema {
  const whole = (keys: readonly string[]): Schema => ({ required: [...keys] });
  const rules = [
    ...(exactlyOne ?? []).map((groups) => ({ oneOf: groups.map(whole) })),
    ...(atLeastOne ?? []).map((keys) => ({ anyOf: keys.map((key) => whole([key])) })),
  ];
  const others = (together ?? []).flatMap((keys) =>
    keys.map((key) => [key, keys.filter((k) => k !== key)] as const),
  );
  return {
    $schema: DIALECT,
    title: `${name}: input`,
    description: sentence,
    type: 'object',
    properties: mapped(input, fieldSchema),
    required: Object.keys(input).filter((key) => input[key]?.required),
    additionalProperties: false,
    ...(rules.length > 0 && { allOf: rules }),
    ...(others.length > 0 && { dependentRequired: Object.fromEntries(others) }),
    examples: [example],
  };
}

function fieldSchema(field: Field): Schema {
  const description = field.doc;
  switch (field.type) {
    case 'quantity':
      return {
        description,
        ...quantitySchema(field.kind, field.range),
        ...(field.fallback !== undefined && { default: field.fallback }),
      };
    case 'alike':
      return { description, anyOf: [{ type: 'string' }, { type: 'number' }], 'x-alike': true };
    case 'quantities':
      return { description, type: 'array', items: quantitySchema(field.kind, field.range) };
    case 'text':
      return { description, type: 'string', examples: [field.example] };
    case 'choice':
      return {
        description,
        enum: [...field.choices],
        ...(field.fallback !== undefined && { default: field.fallback }),
      };
    case 'structure': {
      const { $schema, ...schema } = z.toJSONSchema(field.schema, { io: 'input', unrepresentable: 'any' });
      return { description, ...schema };
    }
  }
}

function outputSchema({ name, input, output }: Calculator): Schema {
  const echoed = Object.entries(input).filter(
    ([key, field]) => 'fallback' in field && !Object.hasOwn(output, key),
  );
  const results = {
    ...mapped(output, resultSchema),
    ...Object.fromEntries(
      echoed.map(([key, field]) => [
        key,
        resultSchema({
          kind: field.type === 'quantity' ? field.kind : 'value',
          doc: `${field.doc}, as used`,
        }),
      ]),
    ),
  };
  const issue = { type: 'object', required: ['code', 'at', 'got', 'wanted', 'message'] };
  return {
    $schema: DIALECT,
    title: `${name}: output`,
    oneOf: [
      {
        type: 'object',
        properties: {
          results: {
            type: 'object',
            properties: results,
            required: Object.keys(output).filter((key) => !output[key]?.optional),
          },
          cautions: { type: 'array', items: { type: 'object', required: ['code', 'message'] } },
          sources: { type: 'array', items: { type: 'string' } },
        },
        required: ['results', 'cautions', 'sources'],
      },
      { type: 'object', properties: { issues: { type: 'array', items: issue } }, required: ['issues'] },
    ],
  };
}

function resultSchema({ kind, doc, each }: OutputField): Schema {
  if (kind === 'value') return { description: doc, type: 'object', required: ['value'] };
  if (kind === 'alike')
    return { description: doc, type: 'object', required: ['value', 'unit'], 'x-alike': true };
  const ucum = QUANTITY_KINDS[kind];
  return {
    description: each === undefined ? doc : `of each ${each}: ${doc}`,
    type: 'object',
    properties: {
      value: each === undefined ? {} : { type: 'object', additionalProperties: { type: 'number' } },
      unit: { const: ucum },
    },
    required: ['value', 'unit'],
    'x-ucum': ucum,
  };
}
