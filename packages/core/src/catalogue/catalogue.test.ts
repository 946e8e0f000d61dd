import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SOURCES } from '../sources/index.ts';
import { QUANTITY_KINDS } from '../units/kinds.ts';
import { answered } from './answered.ts';
import { CATALOGUE, calculatorNamed } from './catalogue.ts';
import { calculatorSchema } from './schema.ts';

const ALL = [...CATALOGUE.values()];
const JSON_READING = { bareNumbersAreSi: true };
const TYPED = { bareNumbersAreSi: false };

const hasBadNumber = (value: unknown): boolean =>
  typeof value === 'number'
    ? !Number.isFinite(value)
    : value !== null && typeof value === 'object' && Object.values(value).some(hasBadNumber);

describe.each(ALL.map((c) => [c.name, c] as const))('%s', (_, calculator) => {
  it('answers its own example with every documented result and no other', () => {
    const answer = answered(calculator, calculator.example, JSON_READING);
    if ('issues' in answer) throw new Error(JSON.stringify(answer.issues, null, 1));
    for (const [key, field] of Object.entries(calculator.output)) {
      const result = answer.results[key];
      if (!field.optional) expect(result, key).toBeDefined();
      if (result && field.kind !== 'value' && field.kind !== 'alike')
        expect(result.unit).toBe(QUANTITY_KINDS[field.kind]);
      if (result && field.kind === 'value') expect(result).not.toHaveProperty('unit');
    }
    expect(hasBadNumber(answer)).toBe(false);
  });

  it('answers its example from the command line too, where every unit must be said', () => {
    const typed = Object.fromEntries(
      Object.entries(calculator.example).filter(([key]) => calculator.input[key]?.type !== 'structure'),
    );
    const answer = answered(calculator, typed, TYPED);
    const found = 'issues' in answer ? answer.issues.filter((i) => i.code === 'unit/missing') : [];
    expect(found).toEqual([]);
  });

  it('names only published sources that are listed, says its range and its formula', () => {
    expect(calculator.sources.length).toBeGreaterThan(0);
    for (const key of calculator.sources) expect(Object.keys(SOURCES)).toContain(key);
    expect(calculator.range).not.toBe('');
    expect(calculator.formula.length).toBeGreaterThan(0);
    expect(calculator.sentence).toMatch(/\.$/);
  });

  it('names in its rules only inputs it has', () => {
    const named = [calculator.exactlyOne ?? [], calculator.together ?? [], calculator.atLeastOne ?? []].flat(
      3,
    );
    for (const key of [...named, ...Object.keys(calculator.example)])
      expect(Object.keys(calculator.input)).toContain(key);
  });

  it('has a schema that holds every input and result, with a unit for each quantity', () => {
    const schema = JSON.parse(JSON.stringify(calculatorSchema(calculator))) as {
      input: {
        $schema: string;
        properties: Record<string, Record<string, unknown>>;
        additionalProperties: boolean;
      };
    };
    expect(schema.input.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(schema.input.additionalProperties).toBe(false);
    expect(Object.keys(schema.input.properties)).toEqual(Object.keys(calculator.input));
    for (const [key, field] of Object.entries(calculator.input))
      if (field.type === 'quantity')
        expect(schema.input.properties[key]?.['x-ucum']).toBe(QUANTITY_KINDS[field.kind]);
  });

  it('gives results or issues to any input whatever, and never NaN', () => {
    const keys = Object.keys(calculator.input);
    const hostile = fc.oneof(
      fc.constantFrom<unknown>(
        null,
        '',
        ' ',
        'NaN',
        '1e999 m',
        '3,5 mm',
        '-1 in',
        '0 in',
        '1 in',
        '1e-300 m',
        '1e300 m',
        'x'.repeat(9999),
        Number.NaN,
        Number.POSITIVE_INFINITY,
        -0,
        0,
        1,
        -1,
        1e308,
        5e-324,
        [],
        {},
        [[]],
        [null],
        true,
        '20 N.m',
        '0.3',
        '1 kPa',
        '300 K',
        '5/16-18 UNC',
        'H7',
        '{"__proto__":1}',
      ),
      fc.double(),
      fc.string(),
      fc.jsonValue(),
    );
    const record = fc.dictionary(fc.constantFrom(...keys), hostile, { maxKeys: keys.length });
    const near = fc
      .tuple(fc.constant(calculator.example), record)
      .map(([example, more]) => ({ ...example, ...more }));
    fc.assert(
      fc.property(
        fc.oneof(near, record, fc.jsonValue(), fc.anything()),
        fc.boolean(),
        (raw, bareNumbersAreSi) => {
          const answer = answered(calculator, raw, { bareNumbersAreSi });
          if ('issues' in answer) {
            expect(answer.issues.length).toBeGreaterThan(0);
            for (const issue of answer.issues) {
              expect(issue.code, issue.got).not.toBe('answer/failed');
              expect(issue.message.length).toBeLessThan(1500);
            }
          } else expect(hasBadNumber(answer)).toBe(false);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('stays sane when one number of its example is scaled beyond reason', () => {
    const numeric = Object.keys(calculator.example).filter(
      (key) => calculator.input[key]?.type === 'quantity',
    );
    if (numeric.length === 0) {
      expect(calculator.input).toBeDefined();
      return;
    }
    const read = answered(calculator, calculator.example, JSON_READING);
    expect('issues' in read).toBe(false);
    fc.assert(
      fc.property(
        fc.dictionary(
          fc.constantFrom(...numeric),
          fc.integer({ min: -300, max: 300 }).map((e) => 10 ** e),
        ),
        (scaled) => {
          const answer = answered(calculator, { ...calculator.example, ...scaled }, JSON_READING);
          if ('issues' in answer) expect(answer.issues.filter((i) => i.code === 'answer/failed')).toEqual([]);
          else expect(hasBadNumber(answer)).toBe(false);
        },
      ),
      { numRuns: 300 },
    );
  });
});

it('every calculator has a name of its own, and a mistyped one is guessed at but not taken', () => {
  expect(ALL.length).toBeGreaterThanOrEqual(14);
  expect(calculatorNamed('feeler').ok).toBe(true);
  const slip = calculatorNamed('feeller');
  expect(!slip.ok && slip.issues[0]?.message).toContain('"feeler"');
  expect(calculatorNamed({}).ok).toBe(false);
});

it('a risk too small for any instrument is sent back, not computed with', () => {
  const verdict = CATALOGUE.get('reading-verdict');
  if (!verdict) throw new Error('the catalogue has no reading-verdict');
  const answer = answered(verdict, { ...verdict.example, risk: 5e-324 }, JSON_READING);
  expect('issues' in answer && answer.issues.map((i) => `${i.code} ${i.at}`)).toEqual([
    'input/out-of-range risk',
  ]);
});
