import { readSheet } from '@fettle/book';
import type { OpenAPIHono } from '@hono/zod-openapi';
import { bytesOf, jsonOf, LIMITS, mediaOf } from '../body.ts';
import type { Parts } from '../parts.ts';
import { given, refusalOf } from '../problem.ts';
import { hashAnswer, hashPath, jobSheetPath } from '../schemas.ts';
import { BYTES, documented, SPEC_SHEET_REF } from './documented.ts';
import { jobEntries } from './job-entries.ts';

/** Pictures only, and none that can hold a script: they are shown from the page's own address. */
const PICTURES = ['image/jpeg', 'image/png', 'image/webp', 'image/avif', 'image/heic', 'image/heif'];
/** What is named by its content never changes. */
const FOR_EVER = 'private, max-age=31536000, immutable';

/** Spec sheets and photos, each by the hash of its content. */
export function contentRoutes(app: OpenAPIHono, parts: Parts): void {
  const { store } = parts.directory;
  const sheet = async (hash: string): Promise<Response> => {
    const json = given(await store.sheet(hash));
    if (json === undefined) throw refusalOf([notHere('sheet', hash)]);
    return Response.json(json, { headers: { 'Cache-Control': FOR_EVER } });
  };
  const sheetAnswer = { 200: { says: 'The spec sheet', content: { 'application/json': SPEC_SHEET_REF } } };
  documented(app, {
    method: 'get',
    path: '/api/sheets/{hash}',
    summary: 'A spec sheet by its hash',
    params: hashPath,
    answers: sheetAnswer,
    handler: (_, { params }) => sheet(params.hash),
  });
  documented(app, {
    method: 'get',
    path: '/api/jobs/{id}/sheets/{hash}',
    summary: 'A spec sheet of a job by its hash',
    params: jobSheetPath,
    answers: sheetAnswer,
    handler: async (_, { params }) => {
      await jobEntries(parts, params.id);
      return sheet(params.hash);
    },
  });
  documented(app, {
    method: 'put',
    path: '/api/sheets/{hash}',
    summary: 'Keeps a spec sheet under the SHA-256 of its RFC 8785 form',
    params: hashPath,
    body: { 'application/json': SPEC_SHEET_REF },
    answers: { 200: { says: 'It is kept', content: { 'application/json': hashAnswer } } },
    handler: async (c, { params }) => {
      const json = await jsonOf(c, LIMITS.json);
      given(readSheet(json));
      return c.json({ hash: given(await store.putSheet(params.hash, json)) });
    },
  });
  documented(app, {
    method: 'get',
    path: '/api/photos/{hash}',
    summary: 'A picture by the hash of its bytes',
    params: hashPath,
    answers: { 200: { says: 'The picture', content: { 'image/*': BYTES } } },
    handler: async (_, { params: { hash } }) => {
      const photo = given(await store.photo(hash));
      if (!photo) throw refusalOf([notHere('photo', hash)]);
      const isPicture = PICTURES.includes(photo.media);
      return new Response(new Uint8Array(photo.bytes), {
        headers: {
          // What came in by an archive may call itself anything: it is handed over, not shown.
          'Content-Type': isPicture ? photo.media : 'application/octet-stream',
          'Content-Disposition': isPicture ? 'inline' : `attachment; filename="${hash}"`,
          'Cache-Control': FOR_EVER,
        },
      });
    },
  });
  documented(app, {
    method: 'put',
    path: '/api/photos/{hash}',
    summary: 'Keeps a picture under the SHA-256 of its bytes',
    params: hashPath,
    body: Object.fromEntries(PICTURES.map((media) => [media, BYTES])),
    answers: { 200: { says: 'It is kept', content: { 'application/json': hashAnswer } } },
    handler: async (c, { params: { hash } }) => {
      const media = mediaOf(c, PICTURES);
      const bytes = await bytesOf(c, LIMITS.photo);
      given(await store.append({ photos: [{ hash, media, bytes }] }));
      return c.json({ hash });
    },
  });
}

const notHere = (what: 'sheet' | 'photo', hash: string) => ({
  code: `${what}/unknown`,
  at: 'hash',
  got: hash,
  wanted: `a ${what} kept here`,
  message: `No ${what} ${hash} is here. It may still be on the device that took it; let that device connect.`,
});
