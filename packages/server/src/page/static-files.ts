import { createHash } from 'node:crypto';
import { readFileSync, realpathSync, statSync } from 'node:fs';
import { extname, join, sep } from 'node:path';
import type { Context } from 'hono';

const MEDIA: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.txt': 'text/plain; charset=utf-8',
};
/** The build puts the hash of its content into the name of everything here. */
const HASHED = '/assets/';

/** The file a path names inside the root, or undefined: never one outside it, whatever the path says. */
function fileIn(root: string, path: string): { file: string; bytes: Uint8Array<ArrayBuffer> } | undefined {
  let decoded: string;
  try {
    decoded = decodeURIComponent(path);
  } catch {
    return undefined;
  }
  if (decoded.includes('\0') || decoded.includes('\\') || /(^|\/)\./.test(decoded)) return undefined;
  try {
    const base = realpathSync(root);
    const file = realpathSync(join(base, decoded));
    if (!file.startsWith(base + sep) || !statSync(file).isFile()) return undefined;
    return { file, bytes: new Uint8Array(readFileSync(file)) };
  } catch {
    return undefined;
  }
}

/** A file of the built page, or its index for a place of the page; undefined when there is none to give. */
export function pageFile(c: Context, root: string): Response | undefined {
  const { path } = c.req;
  const found = path === '/' ? undefined : fileIn(root, path);
  if (found) return served(c, found.file, found.bytes, path);
  // A name with an ending is a file that is not there; anything else is a place inside the page.
  if (path.startsWith(HASHED) || extname(path) !== '') return undefined;
  const index = fileIn(root, '/index.html');
  return index && served(c, index.file, index.bytes, '/index.html');
}

function served(c: Context, file: string, bytes: Uint8Array<ArrayBuffer>, path: string): Response {
  const etag = `"${createHash('sha256').update(bytes).digest('base64url').slice(0, 22)}"`;
  const headers: Record<string, string> = {
    'Content-Type': MEDIA[extname(file)] ?? 'application/octet-stream',
    'Cache-Control': path.startsWith(HASHED) ? 'public, max-age=31536000, immutable' : 'no-cache',
    ETag: etag,
    // The worker may speak for the whole page wherever the build puts it.
    ...(/^\/(sw|service-worker)\.js$/.test(path) && { 'Service-Worker-Allowed': '/' }),
  };
  if (c.req.header('if-none-match') === etag) return new Response(null, { status: 304, headers });
  return new Response(c.req.method === 'HEAD' ? null : bytes, { headers });
}
