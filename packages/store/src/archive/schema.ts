import { BODIES, BODY_VERSION, envelopeSchema } from '@fettle/book';
import { MANIFEST_SCHEMA } from './manifest.ts';

/** JSON Schema (2020-12) of what is in an archive: the manifest, a line of the ledger, the body of each kind. */
export function archiveSchema(): Record<string, unknown> {
  const kinds = Object.keys(BODIES).map((kind) => ({ kind, name: `body-${kind}-${BODY_VERSION}` }));
  const bodies = Object.values(BODIES).map((body, index) => [
    kinds[index]!.name,
    // As written: a key with a default may be left out.
    withoutDialect(body.toJSONSchema({ io: 'input' })),
  ]);
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'fettle archive, version 1',
    description:
      'A ZIP of manifest.json, ledger.ndjson (one entry a line, RFC 8785, ordered by tick then id), ' +
      'sheets/<hash>.json and photos/<hash>. This schema is of manifest.json; #/$defs/entry is of a line. ' +
      'A kind or version of entry not listed here is kept as it is.',
    $ref: '#/$defs/manifest',
    $defs: {
      manifest: MANIFEST_SCHEMA,
      entry: {
        ...withoutDialect(envelopeSchema.toJSONSchema({ io: 'input' })),
        allOf: kinds.map(({ kind, name }) => ({
          if: { properties: { kind: { const: kind }, v: { const: BODY_VERSION } } },
          // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema; nobody awaits this
          then: { properties: { body: { $ref: `#/$defs/${name}` } } },
        })),
      },
      ...Object.fromEntries(bodies),
    },
  };
}

/** The dialect is said once, at the root. */
function withoutDialect(schema: object): Record<string, unknown> {
  return Object.fromEntries(Object.entries(schema).filter(([key]) => key !== '$schema'));
}
