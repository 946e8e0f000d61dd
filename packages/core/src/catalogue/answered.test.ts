import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { quantityIn } from '../units/quantity-in.ts';
import { type Answered, answered } from './answered.ts';
import { type Calculator, calculator } from './calculator.ts';
import {
  choice,
  defaultedQuantity,
  optionalQuantities,
  optionalQuantity,
  optionalText,
  quantity,
  structure,
} from './field.ts';
import { calculatorSchema } from './schema.ts';

const SAMPLE = calculator({
  name: 'sample',
  sentence: 'A calculator for tests.',
  formula: ['y = x'],
  sources: ['none'],
  input: {
    length: quantity('length', 'x', { above: 0, max: 10 }),
    ratio: defaultedQuantity('ratio', 'r', 0.05),
    a: optionalQuantity('force', 'a'),
    b: optionalQuantity('force', 'b'),
    c: optionalQuantity('force', 'c'),
    d: optionalQuantity('force', 'd'),
    list: optionalQuantities('length', 'many'),
    word: optionalText('w', 'H7'),
    ends: { ...choice('e', ['plain', 'ground']), required: false, fallback: 'plain' } as const,
    nodes: {
      ...structure(z.array(z.strictObject({ gap: quantityIn('length'), name: z.string() })), 'n'),
      required: false,
    },
  },
  exactlyOne: [[['a'], ['b', 'c']]],
  together: [['c', 'd']],
  output: { y: { kind: 'length', doc: 'y' }, word: { kind: 'value', doc: 'w', optional: true } },
  range: 'any',
  example: { length: '1 in', a: '1 N' },
  compute: ({ length, word, nodes }) => ({
    results: { y: length === 7 ? Number.NaN : length === 8 ? boom() : length + (nodes?.[0]?.gap ?? 0), word },
  }),
});

function boom(): number {
  throw new Error('boom');
}

const ask = (raw: unknown, bareNumbersAreSi = true, of: Calculator = SAMPLE): Answered =>
  answered(of, raw, { bareNumbersAreSi });
const codes = (raw: unknown, bareNumbersAreSi = true): string[] => {
  const answer = ask(raw, bareNumbersAreSi);
  return 'issues' in answer ? answer.issues.map((i) => `${i.code} ${i.at}`) : [];
};

describe('an input', () => {
  it('is answered in SI with its fallbacks echoed and its sources named', () => {
    expect(ask({ length: '2 in', a: 1, word: 'H7' })).toEqual({
      results: {
        y: { value: 0.0508, unit: 'm' },
        word: { value: 'H7' },
        ratio: { value: 0.05, unit: '1' },
        ends: { value: 'plain' },
      },
      cautions: [],
      sources: ['none'],
    });
  });
  it('takes bare numbers as SI in JSON only, and never a number in quotes without a unit', () => {
    expect(codes({ length: 1, a: 1 })).toEqual([]);
    expect(codes({ length: 1, a: '1 N' }, false)).toEqual(['unit/missing length']);
    expect(codes({ length: '1', a: 1 })).toEqual(['unit/missing length']);
    expect(codes({ length: '1 m', a: '1 N', ratio: '0.1' }, false)).toEqual([]);
  });
  it('has all its faults named at once, each at its place', () => {
    expect(codes({ lenght: 1, a: '3,5 N', list: ['1 in', 'x'], ends: 'groud', word: 5 })).toEqual([
      'input/unknown lenght',
      'input/missing length',
      'number/decimal-comma a',
      'number/unreadable /list/1',
      'input/wrong-type word',
      'input/not-a-choice ends',
    ]);
  });
  it('offers the nearest key for a mistyped one', () => {
    const answer = ask({ lenght: 1 });
    expect('issues' in answer && answer.issues[0]?.message).toContain('"length"');
  });
  it('is held to its bounds, zero and infinity included', () => {
    expect(codes({ length: 0, a: 1 })).toEqual(['input/out-of-range length']);
    expect(codes({ length: '11 m', a: 1 })).toEqual(['input/out-of-range length']);
    expect(codes({ length: Number.POSITIVE_INFINITY, a: 1 })).toEqual(['number/not-finite length']);
    expect(codes({ length: null, a: 1 })).toEqual(['input/wrong-type length']);
  });
  it('is not fooled by keys that every object has', () => {
    expect(codes(JSON.parse('{"length":1,"a":1,"__proto__":{"length":2}}'))).toEqual([
      'input/unknown __proto__',
    ]);
    expect(codes({ length: 1, a: 1, constructor: 1 })).toEqual(['input/unknown constructor']);
    expect(codes(Object.create({ length: 1, a: 1 }))).toContain('input/missing length');
  });
  it('must be an object', () => {
    for (const raw of [null, [], 'x', 3, undefined]) expect(codes(raw)).toEqual(['input/not-an-object ']);
  });
});

describe('groups of inputs', () => {
  it('exclude each other, and one is needed whole', () => {
    expect(codes({ length: 1, a: 1, b: 1 })[0]).toMatch(/^input\/conflict/);
    expect(codes({ length: 1 })).toEqual(['input/missing a']);
    expect(codes({ length: 1, b: 1 })).toEqual(['input/missing c']);
    expect(codes({ length: 1, b: 1, c: 1, d: 1 })).toEqual([]);
  });
  it('come together', () => {
    expect(codes({ length: 1, a: 1, d: 1 })).toContain('input/missing c');
  });
});

describe('a structure', () => {
  it('reads quantities inside it, and names faults by JSON pointer', () => {
    const answer = ask({ length: 1, a: 1, nodes: [{ gap: '2 thou', name: 'x' }] });
    expect('results' in answer && answer.results.y?.value).toBeCloseTo(1.0000508, 12);
    expect(
      codes({ length: 1, a: 1, nodes: [{ gap: '2', name: 'x' }, { gap: 1 }, { gap: 1, name: '', z: 1 }] }),
    ).toEqual(['unit/missing /nodes/0/gap', 'input/missing /nodes/1/name', 'input/unknown /nodes/2']);
  });
  it('is written as JSON at the command line', () => {
    expect(codes({ length: '1 m', a: '1 N', nodes: '[{"gap":"2 thou","name":"x"}]' }, false)).toEqual([]);
    expect(codes({ length: '1 m', a: '1 N', nodes: '[{' }, false)).toEqual(['input/not-json nodes']);
  });
  it('shows its quantities in the schema', () => {
    expect(JSON.stringify(calculatorSchema(SAMPLE).input)).toContain('"x-ucum":"m","x-kind":"length"');
  });
});

it('a list may be one text, and a comma for a point in it is still found', () => {
  expect(codes({ length: '1 m', a: '1 N', list: '2thou, 3thou; 4 thou' }, false)).toEqual([]);
  expect(codes({ length: '1 m', a: '1 N', list: '3,5 mm' }, false)).toEqual(['unit/missing /list/0']);
});

it('NaN never leaves, and a mistake of the program is said and not thrown', () => {
  expect(codes({ length: 7, a: 1 })).toEqual(['answer/not-finite y']);
  expect(codes({ length: 8, a: 1 })).toEqual(['answer/failed sample']);
});
