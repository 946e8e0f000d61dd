/**
 * Keeps the page itself, so that the bench opens without the network: the files of one edition, by their hashed names.
 * Data never passes through here: `/api/` goes to the network or fails, and the page has its own ledger.
 */

interface Extendable extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Extendable {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Worker {
  addEventListener(type: 'install' | 'activate', heard: (event: Extendable) => void): void;
  addEventListener(type: 'fetch', heard: (event: Fetching) => void): void;
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
}

const worker = globalThis as unknown as Worker;
const { edition, files } = JSON.parse('__FILES_TO_KEEP__') as { edition: string; files: string[] };
const KEPT = `fettle-page-${edition}`;

worker.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(KEPT)
      .then((cache) => cache.addAll(['./', ...files.filter((file) => file !== 'index.html')]))
      .then(() => worker.skipWaiting()),
  );
});

worker.addEventListener('activate', (event) => {
  const old = (name: string) => name.startsWith('fettle-page-') && name !== KEPT;
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      .then(() => worker.clients.claim()),
  );
});

worker.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  const own = url.origin === location.origin && event.request.method === 'GET';
  if (!own || url.pathname.startsWith('/api/')) return;
  const asked = event.request.mode === 'navigate' ? new Request('./') : event.request;
  event.respondWith(caches.match(asked, { ignoreSearch: true }).then((kept) => kept ?? fetch(event.request)));
});
