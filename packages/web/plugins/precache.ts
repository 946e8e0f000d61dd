import { createHash } from 'node:crypto';
import type { Plugin } from 'vite';

/** Where the service worker's source leaves room for the list. */
const ROOM = '__FILES_TO_KEEP__';

/**
 * Writes into the service worker which files it is to keep, under a name that changes with any of them.
 * Fonts are kept in the one form that every browser with service workers reads.
 */
export function precache(): Plugin {
  return {
    name: 'precache',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_, bundle) {
        const files = Object.keys(bundle)
          .filter((file) => file !== 'service-worker.js' && !/\.(woff|map)$/.test(file))
          .sort();
        // The page itself has no hash in its name, so its content names the edition.
        const edition = createHash('sha256').update(files.join('\n'));
        const page = bundle['index.html'];
        if (page?.type === 'asset') edition.update(page.source);
        const worker = bundle['service-worker.js'];
        if (worker?.type !== 'chunk') throw new Error('the service worker is not in the bundle');
        const list = JSON.stringify({ edition: edition.digest('hex').slice(0, 12), files });
        const before = worker.code;
        worker.code = before.replace(new RegExp(`["'\`]${ROOM}["'\`]`), () => JSON.stringify(list));
        if (worker.code === before) throw new Error(`the service worker has no ${ROOM}`);
      },
    },
  };
}
