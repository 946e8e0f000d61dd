import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { BODIES } from '../ledger/bodies.ts';
import { entryJsonSchema, type JsonSchema, specSheetJsonSchema } from './schema.ts';

const published = [
  ['spec-sheet', specSheetJsonSchema()],
  ['entry', entryJsonSchema()],
] as const;

/** Every `$ref` of a schema. */
function referencesIn(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    key === '$ref' ? [String(inner)] : referencesIn(inner),
  );
}

describe.each(published)('the published schema %s', (name, schema) => {
  const file = new URL(`../../../../docs/schemas/${name}.schema.json`, import.meta.url);
  if (process.env.FETTLE_WRITE_SCHEMAS === '1') writeFileSync(file, `${JSON.stringify(schema, null, 2)}\n`);

  it('is the one the program goes by (FETTLE_WRITE_SCHEMAS=1 writes it anew)', () => {
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(JSON.parse(JSON.stringify(schema)));
  });

  it('refers to nothing that it does not hold', () => {
    const held = Object.keys((schema.$defs ?? {}) as object).map((key) => `#/$defs/${key}`);
    expect(held.length).toBeGreaterThan(0);
    expect(held).toEqual(expect.arrayContaining(referencesIn(schema)));
  });
});

const sheetWith = (relation: unknown) => ({
  format: 'fettle-spec-sheet',
  version: 1,
  title: 'An engine',
  documents: {},
  characteristics: [{ id: 'a', name: 'A', kind: 'length', relation }],
});

/** Read back by the converter of the other direction, which knows nothing of the schemas it was made from. */
const accepts = (schema: JsonSchema, value: unknown): boolean =>
  z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]).safeParse(value).success;

it('a sheet without its optional fields, and with a nested relation, is valid; one misspelt is not', () => {
  const schema = specSheetJsonSchema();
  const nested = {
    linear: { terms: [{ factor: 1, of: { reduce: { by: 'mean', over: ['end'], of: 'b' } } }] },
  };
  expect(accepts(schema, sheetWith(nested))).toBe(true);
  expect(accepts(schema, sheetWith({ linear: { terms: [{ factor: 'one', of: 'b' }] } }))).toBe(false);
  expect(accepts(schema, { ...sheetWith('b'), titel: 'x' })).toBe(false);
});

it('every kind of entry has its body in the schema, and is bound to it by kind and version', () => {
  const schema = entryJsonSchema();
  expect(Object.keys(schema.$defs as object)).toEqual(Object.keys(BODIES));
  expect(schema.allOf).toContainEqual({
    if: { properties: { kind: { const: 'strike' }, v: { const: 1 } } },
    // biome-ignore lint/suspicious/noThenProperty: the keyword is JSON Schema's.
    then: { properties: { body: { $ref: '#/$defs/strike' } } },
  });
  expect((schema.$defs as Record<string, unknown>).strike).toMatchObject({
    required: ['entry', 'why'],
    additionalProperties: false,
  });
});
