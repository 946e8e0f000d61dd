import { BODIES, envelopeSchema } from '@fettle/book';
import { MANIFEST_SCHEMA } from './manifest.ts';

/** JSON Schema (2020-12) of what is in an archive: the manifest, the envelope of a line, the body of each kind. */
export function archiveSchema(): Record<string, unknown> {
  const bodies = Object.entries(BODIES).map(([kind, body]) => [
    // As written: a key with a default may be left out.
    `body-${kind}-1`,
    withoutDialect(body.toJSONSchema({ io: 'input' })),
  ]);
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'fettle archive, version 1',
    description:
      'A ZIP of manifest.json, ledger.ndjson (one entry a line, RFC 8785, ordered by tick then id), ' +
      'sheets/<hash>.json and photos/<hash>. An entry of kind K and version v has the body body-K-v; ' +
      'a kind or version not listed here is kept as it is.',
    $ref: '#/$defs/manifest',
    $defs: {
      manifest: MANIFEST_SCHEMA,
      entry: withoutDialect(envelopeSchema.toJSONSchema({ io: 'input' })),
      ...Object.fromEntries(bodies),
    },
  };
}

/** The dialect is said once, at the root. */
function withoutDialect(schema: object): Record<string, unknown> {
  return Object.fromEntries(Object.entries(schema).filter(([key]) => key !== '$schema'));
}
