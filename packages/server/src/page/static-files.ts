import { createHash } from 'node:crypto';
import { readFileSync, realpathSync, statSync } from 'node:fs';
import { extname, join, sep } from 'node:path';
import type { Context } from 'hono';
import { isWorthPacking, packed, takesGzip } from './packing.ts';

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

/** An entity tag in a list of them, as RFC 9110 compares for `If-None-Match`: a weak one is as good. */
const isNamed = (header: string | undefined, etag: string): boolean =>
  (header ?? '').split(',').some((tag) => tag.trim().replace(/^W\//, '') === etag);

function served(c: Context, file: string, bytes: Uint8Array<ArrayBuffer>, path: string): Response {
  const media = MEDIA[extname(file)] ?? 'application/octet-stream';
  const hash = createHash('sha256').update(bytes).digest('base64url').slice(0, 22);
  const mayPack = isWorthPacking(media);
  const pack = mayPack && takesGzip(c.req.header('accept-encoding'));
  // Each form is another representation and has its own tag.
  const etag = pack ? `"${hash}-gzip"` : `"${hash}"`;
  const headers: Record<string, string> = {
    'Content-Type': media,
    'Cache-Control': path.startsWith(HASHED) ? 'public, max-age=31536000, immutable' : 'no-cache',
    ETag: etag,
    ...(mayPack && { Vary: 'Accept-Encoding' }),
    // The worker may speak for the whole page wherever the build puts it.
    ...(/^\/(sw|service-worker)\.js$/.test(path) && { 'Service-Worker-Allowed': '/' }),
  };
  if (isNamed(c.req.header('if-none-match'), etag)) return new Response(null, { status: 304, headers });
  const body = pack ? packed(hash, bytes) : bytes;
  return new Response(c.req.method === 'HEAD' ? null : body, {
    headers: {
      ...headers,
      ...(pack && { 'Content-Encoding': 'gzip' }),
      'Content-Length': String(body.length),
    },
  });
}
