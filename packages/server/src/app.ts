import { randomBytes } from 'node:crypto';
import { OpenAPIHono } from '@hono/zod-openapi';
import { accessGuard } from './access/access.ts';
import { JobIndex } from './job-index.ts';
import { nothingThere } from './nothing-there.ts';
import { notBuiltPage, PAIR_STYLE, pairPage } from './page/pair-page.ts';
import { pageFile } from './page/static-files.ts';
import type { Parts } from './parts.ts';
import { ownFault, problemResponse, Refusal } from './problem.ts';
import { aboutRoutes } from './routes/about.ts';
import { archiveRoutes } from './routes/archive.ts';
import { calculatorRoutes } from './routes/calculators.ts';
import { contentRoutes } from './routes/content.ts';
import { entryRoutes } from './routes/entries.ts';
import { eventRoutes } from './routes/events.ts';
import { jobRoutes } from './routes/jobs.ts';
import { pairingRoutes } from './routes/pairing.ts';
import { printedRoutes } from './routes/printed.ts';
import { securityHeaders } from './security-headers.ts';

/** What the app needs; what is left out takes its usual value. */
export type AppOptions = Pick<Parts, 'directory' | 'access'> & Partial<Omit<Parts, 'index'>>;

const BEATS = { heartbeat: 15_000, look: 2000 };

/** The bench over HTTP, without a socket. */
export function createApp(options: AppOptions): OpenAPIHono {
  const parts: Parts = {
    now: () => Date.now(),
    random: (count) => new Uint8Array(randomBytes(count)),
    beats: BEATS,
    closing: new AbortController().signal,
    addresses: () => [],
    faulted: () => {},
    ...options,
    index: new JobIndex(options.directory.store),
  };
  const app = new OpenAPIHono();
  app.use(securityHeaders);
  app.use(accessGuard(parts.access, parts.directory.path));
  aboutRoutes(app, parts);
  jobRoutes(app, parts);
  entryRoutes(app, parts);
  contentRoutes(app, parts);
  eventRoutes(app, parts);
  archiveRoutes(app, parts);
  printedRoutes(app, parts);
  calculatorRoutes(app);
  pairingRoutes(app, parts);
  app.get('/pair', (c) => c.html(pairPage()));
  app.get('/pair.css', (c) => c.body(PAIR_STYLE, 200, { 'Content-Type': 'text/css; charset=utf-8' }));
  app.get('*', (c) => {
    const { path } = c.req;
    const isPage = path !== '/api' && !path.startsWith('/api/') && parts.webRoot !== undefined;
    const file = isPage ? pageFile(c, parts.webRoot) : undefined;
    if (file) return file;
    return path === '/' ? c.html(notBuiltPage(), 503) : problemResponse(nothingThere(app, c));
  });
  app.notFound((c) => problemResponse(nothingThere(app, c)));
  app.onError((error) => {
    if (error instanceof Refusal) return problemResponse(error);
    parts.faulted(error);
    return problemResponse(ownFault());
  });
  return app;
}
