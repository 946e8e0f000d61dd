import * as z from 'zod';
import { BODIES } from '../ledger/bodies.ts';
import { BODY_VERSION } from '../ledger/entry.ts';
import { envelopeSchema } from '../ledger/envelope.ts';
import { sheetSchema } from './sheet.ts';

export type JsonSchema = Readonly<Record<string, unknown>>;

const DIALECT = 'https://json-schema.org/draft/2020-12/schema';

/** A schema of what a file may hold: fields that have a default may be left out. */
const inputSchema = (schema: z.ZodType): Record<string, unknown> => {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' });
  return rest;
};

/** JSON Schema of a spec sheet file, version 1. The one definition it refers to is the relation, which nests. */
export const specSheetJsonSchema = (): JsonSchema => ({
  $schema: DIALECT,
  title: 'Spec sheet',
  ...JSON.parse(JSON.stringify(inputSchema(sheetSchema)).replaceAll('__schema0', 'relation')),
});

/**
 * JSON Schema of one ledger entry: the envelope, and for each kind known at its version the body.
 * An entry of another kind or version is valid with any body: it is kept as it is.
 */
export function entryJsonSchema(): JsonSchema {
  const kinds = Object.entries(BODIES);
  return {
    $schema: DIALECT,
    title: 'Ledger entry',
    ...inputSchema(envelopeSchema),
    allOf: kinds.map(([kind]) => ({
      if: { properties: { kind: { const: kind }, v: { const: BODY_VERSION } } },
      // biome-ignore lint/suspicious/noThenProperty: the keyword is JSON Schema's.
      then: { properties: { body: { $ref: `#/$defs/${kind}` } } },
    })),
    $defs: Object.fromEntries(kinds.map(([kind, body]) => [kind, inputSchema(body)])),
  };
}
