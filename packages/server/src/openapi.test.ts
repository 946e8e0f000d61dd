import { contentHash, nextEntry, outlineSheet } from '@fettle/book';
import { afterAll, beforeAll, expect, it } from 'vitest';
import * as z from 'zod';
import { freshId, JOB, ledgerOf, SECRET, type TestBench, testBench } from './testing/bench.ts';

type Schema = Record<string, unknown>;
type Operation = { responses: Record<string, { content?: Record<string, { schema: Schema }> }> };
interface Contract {
  openapi: string;
  info: { title: string; version: string };
  paths: Record<string, Record<string, Operation & { parameters?: Schema[]; requestBody?: Schema }>>;
  components: { schemas: Record<string, Schema> };
}

let bench: TestBench;
let contract: Contract;
beforeAll(async () => {
  bench = await testBench({ lan: true });
  contract = (await bench.json('/api/openapi.json')).body as Contract;
});
afterAll(() => bench.close());

/** Every reference anywhere in the contract. */
function references(value: unknown, found: string[] = []): string[] {
  if (typeof value !== 'object' || value === null) return found;
  for (const [key, inside] of Object.entries(value)) {
    if (key === '$ref' && typeof inside === 'string') found.push(inside);
    else references(inside, found);
  }
  return found;
}

function referred(reference: string): unknown {
  return reference
    .replace(/^#\//, '')
    .split('/')
    .reduce<unknown>((inside, key) => (inside as Schema | undefined)?.[key], contract);
}

it('is OpenAPI 3.1 whose references all lead somewhere', () => {
  expect(contract.openapi).toMatch(/^3\.1\./);
  expect(contract.info).toMatchObject({ title: 'fettle' });
  const all = references(contract);
  expect(all).toContain('#/components/schemas/Entry');
  expect(all).toContain('#/components/schemas/SpecSheet');
  expect(all.filter((reference) => referred(reference) === undefined)).toEqual([]);
});

it('says of every parameter in a path that it is required, and a text', () => {
  for (const [path, operations] of Object.entries(contract.paths))
    for (const [method, { parameters = [] }] of Object.entries(operations)) {
      const named = parameters.filter((of) => of.in === 'path');
      expect([method, path, named.map(({ name }) => name)]).toEqual([
        method,
        path,
        [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name),
      ]);
      for (const { name, required, schema } of named)
        expect([path, name, required, (schema as Schema).type]).toEqual([path, name, true, 'string']);
    }
});

/** A schema of the contract as one that can be held against an answer, its references resolved inside. */
function schemaOf(schema: Schema): z.ZodType {
  const $defs = contract.components.schemas;
  const text = JSON.stringify({ ...schema, $defs }).replaceAll('#/components/schemas/', '#/$defs/');
  return z.fromJSONSchema(JSON.parse(text) as Parameters<typeof z.fromJSONSchema>[0]);
}

it('documents every endpoint, and each answers as it says', async () => {
  const outlined = outlineSheet({ layout: 'twin', cylinders: 2, mains: 2, title: 'Two' });
  if (!outlined.ok) throw new Error('the outline is refused');
  const hash = contentHash(outlined.value);
  const entries = ledgerOf(['a']);
  const pen = { job: JOB, device: 'tablet', who: 'Sam', at: '2026-03-01T10:00:00Z', id: freshId() };
  entries.push(nextEntry(entries, pen, 'spec-adopted', { sheet: hash, title: 'Two' }));
  const bytes = new Uint8Array([1, 2, 3]);
  const photo = '039058c6f2c0cb492c533b0a4d14ef77cc0f78abccced5287d84a1a2011cfb81';
  const jpeg = { body: bytes, headers: { 'content-type': 'image/jpeg' } };
  const json = (value: unknown) => ({
    body: JSON.stringify(value),
    headers: { 'content-type': 'application/json' },
  });
  const none = '0'.repeat(64);

  // In an order in which each finds what it needs: [operation, address, request].
  const asked: [string, string, RequestInit?][] = [
    ['get /api/health', '/api/health'],
    ['get /api/directory', '/api/directory', { headers: { authorization: `Bearer ${SECRET}` } }],
    ['get /api/directory', '/api/directory'],
    ['get /api/openapi.json', '/api/openapi.json'],
    ['get /api/jobs', '/api/jobs'],
    ['post /api/jobs', '/api/jobs', json({ outline: { layout: 'v', cylinders: 4, mains: 3, title: 'Vee' } })],
    ['post /api/jobs', '/api/jobs', json({})],
    ['post /api/jobs/{id}/entries', `/api/jobs/${JOB}/entries`, json(entries)],
    ['post /api/jobs/{id}/entries', `/api/jobs/${JOB}/entries`, json([7])],
    ['get /api/jobs/{id}/entries', `/api/jobs/${JOB}/entries`],
    ['post /api/parcel', '/api/parcel', json({ sheets: [{ hash, json: outlined.value }] })],
    ['put /api/sheets/{hash}', `/api/sheets/${hash}`, json(outlined.value)],
    ['get /api/sheets/{hash}', `/api/sheets/${hash}`],
    ['get /api/sheets/{hash}', `/api/sheets/${none}`],
    ['get /api/jobs/{id}/sheets/{hash}', `/api/jobs/${JOB}/sheets/${hash}`],
    ['put /api/photos/{hash}', `/api/photos/${photo}`, jpeg],
    ['get /api/photos/{hash}', `/api/photos/${photo}`],
    ['get /api/jobs/{id}/archive', `/api/jobs/${JOB}/archive`],
    ['post /api/archive', '/api/archive', { body: 'x', headers: { 'content-type': 'application/zip' } }],
    ['get /api/jobs/{id}/build-book.pdf', `/api/jobs/${JOB}/build-book.pdf?paper=letter`],
    ['get /api/jobs/{id}/wall-sheet.pdf', `/api/jobs/${JOB}/wall-sheet.pdf`],
    ['get /api/jobs/{id}/tags.pdf', `/api/jobs/${JOB}/tags.pdf?size=50x30&from=3`],
    ['get /api/jobs/{id}/tags.pdf', `/api/jobs/${JOB}/tags.pdf?size=50x30&from=99`],
    ['get /api/jobs/{id}/morning-card.pdf', `/api/jobs/${JOB}/morning-card.pdf?zone=Asia/Kolkata`],
    ['get /api/jobs/{id}/slip.pdf', `/api/jobs/${JOB}/slip.pdf?component=crank`],
    ['get /api/calculators', '/api/calculators'],
    ['get /api/calculators/{name}', '/api/calculators/cylinder'],
    [
      'post /api/calculators/{name}',
      '/api/calculators/cylinder',
      json({ bore: '80 mm', stroke: '80 mm', cylinders: 4 }),
    ],
    ['get /api/session', '/api/session'],
    ['post /api/pairing', '/api/pairing'],
    ['get /api/pairing', '/api/pairing'],
    ['post /api/pair', '/api/pair', json({ code: 'wrong', name: 'tablet' })],
    ['get /api/devices', '/api/devices'],
    ['delete /api/devices/{id}', '/api/devices/0123456789ab'],
  ];
  for (const [operation, at, init = {}] of asked) {
    const [method, path] = operation.split(' ') as [string, string];
    const documented = contract.paths[path]?.[method];
    expect([operation, documented === undefined]).toEqual([operation, false]);
    const response = await bench.ask(at, { ...init, method: method.toUpperCase() });
    const said = documented!.responses[String(response.status)] ?? documented!.responses.default!;
    const media = (response.headers.get('content-type') ?? '').split(';')[0]!;
    expect([operation, response.status < 500]).toEqual([operation, true]);
    const content = said.content?.[media] ?? said.content?.[media.replace(/\/.*/, '/*')];
    expect([operation, at, media, content === undefined]).toEqual([operation, at, media, false]);
    if (!media.endsWith('json')) continue;
    // An address that refers to a recursive or conditional schema is held to what book itself says, in its tests.
    const schema = JSON.stringify(content!.schema).includes('SpecSheet') ? {} : content!.schema;
    const held = schemaOf(schema).safeParse(await response.json());
    expect([operation, response.status, held.error?.issues]).toEqual([operation, response.status, undefined]);
  }
  const covered = new Set([...asked.map(([operation]) => operation), 'get /api/events']);
  const all = Object.entries(contract.paths).flatMap(([path, of]) =>
    Object.keys(of).map((m) => `${m} ${path}`),
  );
  expect(all.filter((operation) => !covered.has(operation))).toEqual([]);
});
