import { archiveOf, imported, readArchive } from '@fettle/store';
import type { OpenAPIHono } from '@hono/zod-openapi';
import { bytesOf, LIMITS, mediaOf } from '../body.ts';
import type { Parts } from '../parts.ts';
import { given } from '../problem.ts';
import { importedAnswer, jobPath } from '../schemas.ts';
import { BYTES, documented } from './documented.ts';

export function archiveRoutes(app: OpenAPIHono, { directory, index }: Parts): void {
  documented(app, {
    method: 'get',
    path: '/api/jobs/{id}/archive',
    summary: 'The job as one ZIP: ledger, spec sheets, photos',
    params: jobPath,
    answers: { 200: { says: 'The archive', content: { 'application/zip': BYTES } } },
    handler: async (_, { params: { id } }) => {
      const bytes = given(await archiveOf(directory.store, id));
      return new Response(new Uint8Array(bytes), {
        headers: {
          'Content-Type': 'application/zip',
          'Content-Disposition': `attachment; filename="job-${id}.zip"`,
        },
      });
    },
  });
  documented(app, {
    method: 'post',
    path: '/api/archive',
    summary: 'Brings a job in from its archive; what is here already is not entered twice',
    body: { 'application/zip': BYTES },
    answers: { 200: { says: 'How many entries', content: { 'application/json': importedAnswer } } },
    handler: async (c) => {
      mediaOf(c, ['application/zip']);
      const content = given(readArchive(await bytesOf(c, LIMITS.archive)));
      const { added, known } = given(await imported(directory.store, content));
      given(await index.refreshed());
      return c.json({ job: content.job, added: added.length, known: known.length });
    },
  });
}
