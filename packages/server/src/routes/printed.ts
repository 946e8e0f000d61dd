import type { OpenAPIHono } from '@hono/zod-openapi';
import type { Parts } from '../parts.ts';
import { given, Refusal } from '../problem.ts';
import { jobPath, paperQuery } from '../schemas.ts';
import { BYTES, documented } from './documented.ts';
import { jobBook } from './job-entries.ts';

/** Pictures of one book together [bytes]; those past it are named in the book as not here. */
const MOST_PICTURES = 64 * 2 ** 20;

export function printedRoutes(app: OpenAPIHono, parts: Parts): void {
  const { report, now } = parts;
  for (const [file, summary] of [
    ['build-book.pdf', 'The build book: everything, for a stranger to believe'],
    ['slip.pdf', 'The machine-shop slip: sizes wanted, and boxes for what the shop measured'],
    ['wall-sheet.pdf', 'The wall sheet: what is still to be measured, with boxes to write in'],
  ] as const)
    documented(app, {
      method: 'get',
      path: `/api/jobs/{id}/${file}`,
      summary,
      params: jobPath,
      query: paperQuery,
      answers: { 200: { says: 'The pages', content: { 'application/pdf': BYTES } } },
      handler: async (_, { params: { id }, query: { paper = 'a4', component } }) => {
        const book = await jobBook(parts, id);
        if (!report) throw new Refusal(501, [noReport]);
        const toPrint = { book, paper, printedAt: new Date(now()).toISOString() };
        const bytes =
          file === 'wall-sheet.pdf'
            ? await report.wallSheetPdf(toPrint)
            : file === 'slip.pdf'
              ? await report.slipPdf({ ...toPrint, ...(component !== undefined && { component }) })
              : await report.buildBookPdf({ ...toPrint, photos: await photosOf(parts, book.photos) });
        return new Response(new Uint8Array(bytes), {
          headers: { 'Content-Type': 'application/pdf', 'Content-Disposition': `inline; filename="${file}"` },
        });
      },
    });
}

async function photosOf(
  { directory }: Parts,
  named: readonly { readonly body: { readonly sha256: string } }[],
): Promise<ReadonlyMap<string, Uint8Array>> {
  const photos = new Map<string, Uint8Array>();
  let size = 0;
  for (const { body } of named) {
    const photo = given(await directory.store.photo(body.sha256));
    if (!photo || size + photo.bytes.length > MOST_PICTURES) continue;
    size += photo.bytes.length;
    photos.set(body.sha256, photo.bytes);
  }
  return photos;
}

const noReport = {
  code: 'print/not-here',
  at: '',
  got: 'a server without what sets pages',
  wanted: 'the package report',
  message: 'This server cannot print. Start it with "fettle serve", which can.',
};
