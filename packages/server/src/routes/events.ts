import type { OpenAPIHono } from '@hono/zod-openapi';
import type { Context } from 'hono';
import { type SSEStreamingApi, streamSSE } from 'hono/streaming';
import { isAdmitted } from '../access/access.ts';
import type { JobKnown } from '../job-index.ts';
import type { Parts } from '../parts.ts';
import { given, Refusal } from '../problem.ts';
import { documented } from './documented.ts';

/** A bench has a few screens; more streams than this are somebody's mistake. */
const MOST_STREAMS = 100;

export function eventRoutes(app: OpenAPIHono, parts: Parts): void {
  documented(app, {
    method: 'get',
    path: '/api/events',
    summary: 'Tells of each job up to which entry it has come; resumes by Last-Event-ID',
    answers: { 200: { says: 'The events', content: { 'text/event-stream': { type: 'string' } } } },
    handler: async (c) => {
      if (parts.index.listeners >= MOST_STREAMS)
        throw new Refusal(503, [tooManyStreams], { 'Retry-After': '30' });
      const said = c.req.header('last-event-id') ?? '';
      const news = new News(/^\d{1,15}$/.test(said) ? Number(said) : 0);
      // Heard from before the first look on, so that nothing falls between.
      const stop = parts.index.listen((moved) => news.take(moved));
      const first = await parts.index.refreshed();
      if (!first.ok) stop();
      news.take(given(first));
      return streamSSE(c, (stream) =>
        told(c, parts, stream, news)
          // A stream has no word for a fault but its end: whoever listens comes back.
          .catch((error: unknown) => parts.closing.aborted || parts.faulted(error))
          .then(stop),
      );
    },
  });
}

async function told(c: Context, parts: Parts, stream: SSEStreamingApi, news: News): Promise<void> {
  const { index, access, directory, closing, beats } = parts;
  const end = (): void => news.wake();
  stream.onAbort(end);
  closing.addEventListener('abort', end);
  try {
    // At once, so that whoever connects knows it is heard; and when to come back after a break [ms].
    await stream.write('retry: 2000\n\n');
    for (let quiet = 0; !stream.aborted && !closing.aborted; ) {
      for (const { id, last } of news.taken()) {
        quiet = 0;
        await stream.writeSSE({
          event: 'entries',
          id: String(last),
          data: JSON.stringify({ job: id, last }),
        });
      }
      await news.within(beats.look);
      // A device revoked meanwhile hears no more.
      if (closing.aborted || !isAdmitted(c, access, directory.path)) break;
      quiet += beats.look;
      if (quiet >= beats.heartbeat) {
        quiet = 0;
        await stream.write(': still here\n\n');
      }
      // What another process wrote; a store that cannot say just now is asked again.
      await index.refreshed();
    }
  } finally {
    closing.removeEventListener('abort', end);
  }
}

/** What a listener has still to be told: of each job the last, and nothing twice. */
class News {
  readonly #since: number;
  readonly #waiting = new Map<string, JobKnown>();
  readonly #told = new Map<string, number>();
  #woken: () => void = () => {};

  /** @param since  the number up to which the listener has heard already */
  constructor(since: number) {
    this.#since = since;
  }

  take(moved: readonly JobKnown[]): void {
    for (const job of moved)
      if (job.last > Math.max(this.#since, this.#told.get(job.id) ?? 0)) this.#waiting.set(job.id, job);
    if (this.#waiting.size > 0) this.#woken();
  }

  /** In the order of their numbers: the last one told says up to where all were. */
  taken(): readonly JobKnown[] {
    const next = [...this.#waiting.values()].sort((a, b) => a.last - b.last);
    this.#waiting.clear();
    for (const { id, last } of next) this.#told.set(id, last);
    return next;
  }

  /** Waits for news, but no longer than this [ms]. */
  within(millis: number): Promise<void> {
    if (this.#waiting.size > 0) return Promise.resolve();
    return new Promise((resolve) => {
      const timer = setTimeout(resolve, millis);
      this.#woken = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }

  wake(): void {
    this.#woken();
  }
}

const tooManyStreams = {
  code: 'server/too-many-streams',
  at: '',
  got: `${MOST_STREAMS} pages listening already`,
  wanted: `at most ${MOST_STREAMS}`,
  message: 'Too many pages listen for news already. Close some of them; this one asks again by itself.',
};
