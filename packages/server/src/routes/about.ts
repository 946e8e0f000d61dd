import type { OpenAPIHono } from '@hono/zod-openapi';
import { secretWanted } from '../access/access.ts';
import type { Parts } from '../parts.ts';
import { anything, bookComponents, directoryAnswer, health } from '../schemas.ts';
import { documented } from './documented.ts';

const VERSION = '0.1.0';

export function aboutRoutes(app: OpenAPIHono, { directory, access }: Parts): void {
  documented(app, {
    method: 'get',
    path: '/api/health',
    summary: 'Whether the bench answers',
    answers: { 200: { says: 'It does', content: { 'application/json': health } } },
    handler: (c) => c.json({ status: 'ok', version: VERSION, device: directory.device, lan: access.lan }),
  });
  documented(app, {
    method: 'get',
    path: '/api/directory',
    summary: 'Which data directory this is, for who shows its secret',
    answers: { 200: { says: 'The directory', content: { 'application/json': directoryAnswer } } },
    handler: (c) => {
      secretWanted(c);
      return c.json({ path: directory.path, device: directory.device });
    },
  });
  let contract: unknown;
  documented(app, {
    method: 'get',
    path: '/api/openapi.json',
    summary: 'This contract',
    answers: { 200: { says: 'OpenAPI 3.1', content: { 'application/json': anything } } },
    handler: () => {
      contract ??= contractOf(app);
      return Response.json(contract);
    },
  });
}

function contractOf(app: OpenAPIHono): unknown {
  const document = app.getOpenAPI31Document({
    openapi: '3.1.0',
    info: {
      title: 'fettle',
      version: VERSION,
      description: 'The bench over HTTP: jobs, entries, live events, printed things, single calculations.',
    },
    servers: [{ url: '/' }],
  });
  return {
    ...document,
    components: {
      ...document.components,
      schemas: { ...document.components?.schemas, ...bookComponents() },
    },
  };
}
