import { crc32, inflateRawSync } from 'node:zlib';
import { failed, type Issue, type Outcome, ok } from '../outcome.ts';

/** Enough for a job with some hundred photos; what claims more is refused before anything is unpacked. */
export const LARGEST_ARCHIVE = 512 * 2 ** 20;
const MOST_FILES = 20_000;
/** Deflate cannot pack better than this, so a file that claims to is lying about its size. */
const BEST_RATIO = 1032;

const END = 0x06054b50;
const END_LENGTH = 22;
const LONGEST_COMMENT = 0xffff;
const ENTRY = 0x02014b50;
const ENTRY_LENGTH = 46;
const LOCAL = 0x04034b50;
const LOCAL_LENGTH = 30;
const STORED = 0;
const DEFLATED = 8;

export interface ZippedFile {
  readonly name: string;
  /** Its size unpacked, as the table of contents has it; `bytesOf` holds it to that. */
  readonly size: number;
  readonly bytesOf: () => Outcome<Uint8Array>;
}

/**
 * The files of a ZIP, from its table of contents, nothing unpacked yet.
 *
 * Written here because the bytes come from strangers: every offset is held to the file, every size to a cap, every
 * file to its checksum. Encrypted, split and 64-bit ZIPs are refused.
 *
 * @source zip-appnote 4.3 for the records
 */
export function filesInZip(bytes: Uint8Array): Outcome<readonly ZippedFile[]> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endRecord(view);
  if (end === undefined) return failed(noEnd(bytes));
  const count = view.getUint16(end + 10, true);
  const start = view.getUint32(end + 16, true);
  if (view.getUint16(end + 4, true) !== 0 || count === 0xffff || start === 0xffffffff)
    return failed(broken('archive', 'a split or 64-bit ZIP', 'a plain ZIP of one part'));
  if (count > MOST_FILES) return failed(broken('archive', `${count} files`, `at most ${MOST_FILES} files`));
  const files: ZippedFile[] = [];
  const names = new Set<string>();
  let at = start;
  let total = 0;
  for (let index = 0; index < count; index++) {
    const where = `table of contents, file ${index + 1}`;
    if (at + ENTRY_LENGTH > end || view.getUint32(at, true) !== ENTRY)
      return failed(broken(where, 'no entry', `${count} entries`));
    const nameLength = view.getUint16(at + 28, true);
    const next =
      at + ENTRY_LENGTH + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (next > end)
      return failed(broken(where, 'an entry past its end', 'an entry within the table of contents'));
    const name = new TextDecoder().decode(bytes.subarray(at + ENTRY_LENGTH, at + ENTRY_LENGTH + nameLength));
    if (names.has(name)) return failed(broken(name, 'the name twice', 'each name once'));
    names.add(name);
    const entryAt = at;
    const size = view.getUint32(at + 24, true);
    const packed = view.getUint32(at + 20, true);
    total += size;
    if (total > LARGEST_ARCHIVE || size > packed * BEST_RATIO + 64)
      return failed(
        broken(
          name,
          `${size} bytes from ${packed}`,
          `at most ${LARGEST_ARCHIVE} bytes in all, no more than deflate gives`,
        ),
      );
    files.push({
      name,
      size,
      bytesOf: () =>
        unpacked(bytes, view, {
          name,
          size,
          packed,
          flags: view.getUint16(entryAt + 8, true),
          method: view.getUint16(entryAt + 10, true),
          checksum: view.getUint32(entryAt + 16, true),
          local: view.getUint32(entryAt + 42, true),
        }),
    });
    at = next;
  }
  return ok(files);
}

interface Packed {
  readonly name: string;
  readonly size: number;
  readonly packed: number;
  readonly flags: number;
  readonly method: number;
  readonly checksum: number;
  readonly local: number;
}

function unpacked(bytes: Uint8Array, view: DataView, file: Packed): Outcome<Uint8Array> {
  const { name, size, packed, local, method } = file;
  if (file.flags & 1) return failed(broken(name, 'an encrypted file', 'a file anybody can read'));
  if (local + LOCAL_LENGTH > bytes.length || view.getUint32(local, true) !== LOCAL)
    return failed(broken(name, 'no file where the table of contents says', 'the file'));
  const from = local + LOCAL_LENGTH + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
  if (from + packed > bytes.length)
    return failed(broken(name, `${Math.max(0, bytes.length - from)} bytes`, `${packed} bytes`));
  const data = bytes.subarray(from, from + packed);
  const content = method === STORED ? data : method === DEFLATED ? inflated(data, size) : undefined;
  if (content === undefined)
    return failed(
      broken(
        name,
        method === DEFLATED ? 'damaged data' : `packing method ${method}`,
        'stored or deflated data',
      ),
    );
  if (content.length !== size || crc32(content) !== file.checksum)
    return failed(broken(name, 'data that fails its checksum', `${size} bytes as they were packed`));
  return ok(content);
}

function inflated(data: Uint8Array, size: number): Uint8Array | undefined {
  try {
    const content = inflateRawSync(data, { maxOutputLength: Math.max(size, 1) });
    return new Uint8Array(content.buffer, content.byteOffset, content.byteLength);
  } catch {
    // Damaged, or larger than it claimed.
    return undefined;
  }
}

/** Where the record at the end begins: the last one that leaves exactly its comment behind it. */
function endRecord(view: DataView): number | undefined {
  const last = view.byteLength - END_LENGTH;
  for (let at = last; at >= Math.max(0, last - LONGEST_COMMENT); at--)
    if (
      view.getUint32(at, true) === END &&
      at + END_LENGTH + view.getUint16(at + 20, true) === view.byteLength
    )
      return at;
  return undefined;
}

function noEnd(bytes: Uint8Array): Issue {
  const begins = bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;
  return begins
    ? {
        code: 'archive/truncated',
        at: `byte ${bytes.length}`,
        got: 'a ZIP without its end',
        wanted: 'a whole ZIP',
        message: 'The archive is cut off. Copy or download it again, whole. Nothing was imported.',
      }
    : {
        code: 'archive/not-a-zip',
        at: 'byte 0',
        got: bytes.length === 0 ? 'an empty file' : 'something that is not a ZIP',
        wanted: 'an archive made by fettle export',
        message: 'The file is not an archive. Give one that was made by fettle export. Nothing was imported.',
      };
}

function broken(at: string, got: string, wanted: string): Issue {
  return {
    code: 'archive/broken-zip',
    at,
    got,
    wanted,
    message: `The archive is damaged at ${at}: got ${got}, wanted ${wanted}. Take it again from where it came. Nothing was imported.`,
  };
}
