/**
 * A JPEG without what a camera or a program wrote about it: where and when it was taken, with what, by whom, small
 * copies of it, remarks. What is seen of it stays: the coding, the colour profile, and which way is up.
 * The typesetter puts a JPEG into the PDF byte for byte, so that all of that would be handed on with the book; pictures
 * of other kinds are taken apart into dots, and only those are printed.
 *
 * @param bytes  a JPEG interchange stream
 * @returns      the same picture; undefined where it is cut short or no JPEG
 * @source itu-t81 Annex B for the markers; Exif 2.32 4.6 for the orientation. From memory.
 */
export function bareJpeg(bytes: Uint8Array): Uint8Array | undefined {
  if (!isJpeg(bytes)) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const kept: Uint8Array[] = [];
  let orientation = 1;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1]!;
    if (marker === 0xff) {
      // A marker may be padded with any number of these.
      at += 1;
      continue;
    }
    const end = at + 2 + view.getUint16(at + 2);
    if (end > bytes.length || end < at + 4) return undefined;
    const segment = bytes.subarray(at, end);
    if (marker === 0xe1) orientation = orientationOf(segment) ?? orientation;
    if (isSeen(marker, segment)) kept.push(segment);
    at = end;
    if (marker === SCAN) {
      const after = afterScan(bytes, at);
      kept.push(bytes.subarray(at, after));
      at = after;
    }
    // What follows the end is no part of the picture; cameras hang further pictures on there.
    if (bytes[at] === 0xff && bytes[at + 1] === END)
      return joinedBytes([START, ...orientationSegment(orientation), ...kept, Uint8Array.of(0xff, END)]);
  }
  return undefined;
}

export const isJpeg = (bytes: Uint8Array): boolean =>
  bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff;

const START = Uint8Array.of(0xff, 0xd8);
const END = 0xd9;
const SCAN = 0xda;
const REMARK = 0xfe;

const begins = (segment: Uint8Array, word: string): boolean =>
  [...word].every((letter, i) => segment[4 + i] === letter.charCodeAt(0));

/** Of the application segments only those that change how the picture looks: JFIF, a colour profile, the colour transform. */
function isSeen(marker: number, segment: Uint8Array): boolean {
  if (marker === REMARK) return false;
  if (marker < 0xe0 || marker > 0xef) return true;
  return (
    (marker === 0xe0 && begins(segment, 'JFIF\0')) ||
    (marker === 0xe2 && begins(segment, 'ICC_PROFILE\0')) ||
    (marker === 0xee && begins(segment, 'Adobe'))
  );
}

/** Where the coded dots end: at the first marker that is neither stuffing nor a restart. */
function afterScan(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at + 1 < bytes.length) {
    const next = bytes[at + 1]!;
    if (bytes[at] === 0xff && next !== 0 && next !== 0xff && (next < 0xd0 || next > 0xd7)) return at;
    at += 1;
  }
  return bytes.length;
}

const EXIF = 'Exif\0\0';
const ORIENTATION = 0x0112;

/** Which way is up, 1 to 8, from the first directory of an Exif segment. */
function orientationOf(segment: Uint8Array): number | undefined {
  const start = 4 + EXIF.length;
  if (!begins(segment, EXIF) || segment.length < start + 10) return undefined;
  const tiff = new DataView(segment.buffer, segment.byteOffset + start, segment.length - start);
  const little = tiff.getUint16(0) === 0x4949;
  const directory = tiff.getUint32(4, little);
  if (directory + 2 > tiff.byteLength) return undefined;
  const entries = tiff.getUint16(directory, little);
  for (let k = 0; k < entries; k++) {
    const entry = directory + 2 + 12 * k;
    if (entry + 12 > tiff.byteLength) return undefined;
    if (tiff.getUint16(entry, little) !== ORIENTATION) continue;
    const said = tiff.getUint16(entry + 8, little);
    return said >= 1 && said <= 8 ? said : undefined;
  }
  return undefined;
}

/** An Exif segment that says which way is up and nothing else; none where it is up already. */
function orientationSegment(orientation: number): Uint8Array[] {
  if (orientation === 1) return [];
  const tiff = [
    0x4d,
    0x4d,
    0,
    42,
    0,
    0,
    0,
    8,
    0,
    1,
    0x01,
    0x12,
    0,
    3,
    0,
    0,
    0,
    1,
    0,
    orientation,
    0,
    0,
    0,
    0,
    0,
    0,
  ];
  const body = [...[...EXIF].map((letter) => letter.charCodeAt(0)), ...tiff];
  return [Uint8Array.of(0xff, 0xe1, 0, body.length + 2, ...body)];
}

function joinedBytes(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
