import { readFileSync } from 'node:fs';
import { BODIES } from '@fettle/book';
import { expect, it } from 'vitest';
import { goodValue } from '../testing/outcomes.ts';
import { JOB, sampleLedger } from '../testing/sample-ledger.ts';
import { MADE_BY, MANIFEST_SCHEMA, readManifest } from './manifest.ts';
import { archiveSchema } from './schema.ts';

const MANIFEST: Record<string, unknown> = {
  format: 'fettle-archive',
  version: 1,
  job: JOB,
  entries: 1,
  sheets: [],
  photos: [],
  made_by: 'fettle 0.1.0',
};

it('publishes the manifest, the envelope and the body of every kind', () => {
  const schema = archiveSchema() as { $defs: Record<string, { required?: string[]; properties?: object }> };
  const bodies = Object.keys(BODIES).map((kind) => `body-${kind}-1`);
  expect(Object.keys(schema.$defs).sort()).toEqual([...bodies, 'entry', 'manifest'].sort());
  expect(Object.keys(schema.$defs.entry!.properties!).sort()).toEqual(
    Object.keys(sampleLedger(['a'])[0]!).sort(),
  );
  expect(JSON.parse(JSON.stringify(schema))).toEqual(schema);
});

it('asks a manifest for exactly the keys it publishes', () => {
  expect(Object.keys(MANIFEST_SCHEMA.properties).sort()).toEqual(Object.keys(MANIFEST).sort());
  expect([...MANIFEST_SCHEMA.required].sort()).toEqual(Object.keys(MANIFEST).sort());
  goodValue(readManifest(JSON.stringify(MANIFEST)));
  for (const key of MANIFEST_SCHEMA.required) {
    const { [key]: _, ...without } = MANIFEST;
    expect(readManifest(JSON.stringify(without))).toMatchObject({
      ok: false,
      issues: [{ at: `manifest.json/${key}` }],
    });
  }
});

it('says which program made an archive by the name and version of this package', () => {
  const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  expect(MADE_BY).toBe(`fettle ${version}`);
});
