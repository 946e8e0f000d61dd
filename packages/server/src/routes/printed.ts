import { type Book, TAG_SIZES, tagGrid } from '@fettle/book';
import { type Issue, issue } from '@fettle/core';
import type { OpenAPIHono, z } from '@hono/zod-openapi';
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
    ['morning-card.pdf', 'How the engine was left, on one page that hangs on it overnight'],
    ['slip.pdf', 'The machine-shop slip: sizes wanted, and boxes for what the shop measured'],
    ['tags.pdf', 'Tags to tie to the parts, with a square code that leads back to each'],
    ['wall-sheet.pdf', 'The wall sheet: what is still to be measured, with boxes to write in'],
  ] as const)
    documented(app, {
      method: 'get',
      path: `/api/jobs/{id}/${file}`,
      summary,
      params: jobPath,
      query: paperQuery,
      answers: { 200: { says: 'The pages', content: { 'application/pdf': BYTES } } },
      handler: async (_, { params: { id }, query }) => {
        const { paper = 'a4', component, zone = ownZone() } = query;
        const book = await jobBook(parts, id);
        if (!report) throw new Refusal(501, [noReport]);
        const toPrint = { book, paper, zone, printedAt: new Date(now()).toISOString() };
        const one = component !== undefined && { component };
        const set = {
          'build-book.pdf': async () =>
            report.buildBookPdf({ ...toPrint, photos: await photosOf(parts, book.photos) }),
          'morning-card.pdf': () => report.morningCardPdf(toPrint),
          'slip.pdf': () => report.slipPdf({ ...toPrint, ...one }),
          'tags.pdf': () => report.tagsPdf({ ...toPrint, ...tagsAsked(parts, book, query) }),
          'wall-sheet.pdf': () => report.wallSheetPdf(toPrint),
        }[file];
        const bytes = await set();
        return new Response(new Uint8Array(bytes), {
          headers: { 'Content-Type': 'application/pdf', 'Content-Disposition': `inline; filename="${file}"` },
        });
      },
    });
}

function tagsAsked({ addresses }: Parts, book: Book, said: z.infer<typeof paperQuery>) {
  const { paper = 'a4', size = TAG_SIZES[1], from = 1, component } = said;
  const { columns, rows } = tagGrid(size, paper);
  if (from > columns * rows) throw new Refusal(400, [noSuchLabel(from, columns * rows)]);
  if (component !== undefined && !book.parts.has(component)) throw new Refusal(404, [noSuchPart(component)]);
  // An address that only this machine answers to would lead a phone nowhere.
  const [page] = addresses();
  return {
    size,
    from,
    ...(page !== undefined && { page }),
    ...(component !== undefined && { parts: [component] }),
  };
}

const noSuchLabel = (from: number, most: number): Issue =>
  issue(
    'tags/no-such-label',
    'from',
    String(from),
    `1 to ${most}`,
    `A sheet of this size holds ${most} labels; there is no label ${from} to begin with.`,
  );

const noSuchPart = (part: string): Issue =>
  issue('part/unknown', 'component', part, 'a part of this job', `This job has no part "${part}".`);

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

const ownZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

const noReport = {
  code: 'print/not-here',
  at: '',
  got: 'a server without what sets pages',
  wanted: 'the package report',
  message: 'This server cannot print. Start it with "fettle serve", which can.',
};
