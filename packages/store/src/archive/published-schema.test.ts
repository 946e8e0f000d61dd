import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { archiveSchema } from './schema.ts';

const file = new URL('../../../../docs/schemas/archive.schema.json', import.meta.url);
if (process.env.FETTLE_WRITE_SCHEMAS === '1')
  writeFileSync(file, `${JSON.stringify(archiveSchema(), null, 2)}\n`);

it('the published schema of the archive is the one the program goes by (FETTLE_WRITE_SCHEMAS=1 writes it anew)', () => {
  expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(JSON.parse(JSON.stringify(archiveSchema())));
});
