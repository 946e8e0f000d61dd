import {
  contentHash,
  type Entry,
  newEntryId,
  outlineSheet,
  readSheet,
  type SpecSheet,
  sheetFromCsv,
} from '@fettle/book';
import { type Caution, failed, type Outcome, ok } from '@fettle/core';
import { written } from '@fettle/store';
import type { OpenAPIHono, z } from '@hono/zod-openapi';
import { jsonOf, LIMITS } from '../body.ts';
import type { Parts } from '../parts.ts';
import { given } from '../problem.ts';
import { jobAnswer, jobOpened, jobs } from '../schemas.ts';
import { documented, read } from './documented.ts';

type Opening = z.infer<typeof jobOpened>;

export function jobRoutes(app: OpenAPIHono, parts: Parts): void {
  documented(app, {
    method: 'get',
    path: '/api/jobs',
    summary: 'The jobs, the one begun first at the top',
    answers: { 200: { says: 'The jobs', content: { 'application/json': jobs } } },
    handler: async (c) => c.json(given(await parts.index.refreshed())),
  });
  documented(app, {
    method: 'post',
    path: '/api/jobs',
    summary: 'Opens a job from a spec sheet, a list of characteristics as CSV, or an outline',
    body: { 'application/json': jobOpened },
    answers: {
      200: { says: 'The job was opened so before', content: { 'application/json': jobAnswer } },
      201: { says: 'The job', content: { 'application/json': jobAnswer } },
    },
    handler: async (c) => {
      const said = read(jobOpened, await jsonOf(c, LIMITS.json));
      const { sheet, cautions } = given(sheetSaid(said));
      const { before, ...job } = given(await jobWritten(parts, said, sheet));
      if (!before) given(await parts.index.refreshed());
      return c.json({ ...job, cautions }, before ? 200 : 201);
    },
  });
}

function sheetSaid(said: Opening): Outcome<{ sheet: SpecSheet; cautions: readonly Caution[] }> {
  const ways = (['sheet', 'csv', 'outline'] as const).filter((way) => said[way] !== undefined);
  if (ways.length !== 1)
    return failed({
      code: 'job/nothing-to-open-from',
      at: '',
      got: ways.length === 0 ? 'none of them' : ways.join(', '),
      wanted: 'one of sheet, csv, outline',
      message: 'A job is opened from one of sheet, csv or outline. Give that one.',
    });
  if (said.csv !== undefined) return sheetFromCsv(said.csv, { title: said.title ?? 'My engine' });
  const sheet = said.outline !== undefined ? outlineSheet(said.outline) : readSheet(said.sheet);
  return sheet.ok ? ok({ sheet: sheet.value, cautions: [] }) : sheet;
}

interface Opened {
  readonly id: string;
  readonly title: string;
  readonly sheet: string;
  readonly before: boolean;
}

async function jobWritten(
  { directory, now, random }: Parts,
  said: Opening,
  sheet: SpecSheet,
): Promise<Outcome<Opened>> {
  const { owner, story, spending_cap, currency, due } = said;
  const id = said.id ?? newEntryId(now(), random(10));
  const hash = contentHash(sheet);
  const title = said.title ?? sheet.title;
  const body = {
    title,
    ...(owner !== undefined && { owner }),
    ...(story !== undefined && { story }),
    ...(spending_cap !== undefined && { spending_cap }),
    ...(currency !== undefined && { currency }),
    ...(due !== undefined && { due }),
  };
  if (said.id !== undefined) {
    const there = await directory.store.entries(id);
    if (!there.ok) return there;
    if (there.value.entries.length > 0) return openedBefore(id, there.value.entries, body, hash);
  }
  const kept = await written(
    directory,
    { job: id, who: said.who ?? 'unnamed', now: now(), random },
    [
      // The job's own id is that of its opening as well: two who send it at once find one opening.
      { kind: 'job-opened', body, ...(said.id !== undefined && { id }) },
      { kind: 'spec-adopted', body: { sheet: hash, title: sheet.title } },
    ],
    { sheets: [{ hash, json: sheet }] },
  );
  return kept.ok ? ok({ id, title, sheet: hash, before: false }) : kept;
}

/** The same opening sent again is no second job; another one under the same id is refused. */
function openedBefore(
  id: string,
  entries: readonly Entry[],
  body: { readonly title: string },
  sheet: string,
): Outcome<Opened> {
  const isSame =
    entries.some((entry) => entry.kind === 'job-opened' && contentHash(entry.body) === contentHash(body)) &&
    entries.some((entry) => entry.kind === 'spec-adopted' && entry.body.sheet === sheet);
  if (isSame) return ok({ id, title: body.title, sheet, before: true });
  return failed({
    code: 'job/id-reused',
    at: '/id',
    got: `another job with the id ${id}`,
    wanted: 'a new id for a new job',
    message: `Job ${id} is here already and was opened otherwise. Nothing was written; give a new id, or none.`,
  });
}
