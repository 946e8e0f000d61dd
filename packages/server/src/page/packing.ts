import { gzipSync } from 'node:zlib';

/** Kinds of file that come to a third or a quarter of their size when packed; fonts and pictures are packed already. */
const TEXTUAL = /^(text\/|application\/(json|manifest|wasm)|image\/svg)/;

export const isWorthPacking = (media: string): boolean => TEXTUAL.test(media);

/** What was packed, by the hash of the whole: once for each file of the page, however often it is asked for. */
const packedFiles = new Map<string, Uint8Array<ArrayBuffer>>();
/** Far above the files of one page. */
const MOST_PACKED = 500;

export function packed(hash: string, bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const known = packedFiles.get(hash);
  if (known) return known;
  // A page built anew while the server runs leaves its old files behind here.
  if (packedFiles.size >= MOST_PACKED) packedFiles.clear();
  const fresh = new Uint8Array(gzipSync(bytes, { level: 9 }));
  packedFiles.set(hash, fresh);
  return fresh;
}

/** Whether the browser takes gzip: named with no weight of zero, or by a star where it is not named. */
export function takesGzip(header = ''): boolean {
  const offers = new Map(
    header.split(',').map((part) => {
      const [coding = '', ...parameters] = part.split(';').map((text) => text.trim().toLowerCase());
      const weight = parameters.find((text) => text.startsWith('q='))?.slice(2);
      return [coding, weight === undefined ? 1 : Number(weight)] as const;
    }),
  );
  return (offers.get('gzip') ?? offers.get('*') ?? 0) > 0;
}
