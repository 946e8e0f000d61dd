/** A segment: marker, length, data. */
export function segment(marker: number, ...data: readonly number[]): number[] {
  return [0xff, marker, (data.length + 2) >> 8, (data.length + 2) & 255, ...data];
}

export const letters = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));

/** A camera's segment: turned a quarter, and taken somewhere. */
export const CAMERA_SAYS = segment(
  0xe1,
  ...letters('Exif\0\0II*\0'),
  ...[8, 0, 0, 0, 1, 0, 0x12, 0x01, 3, 0, 1, 0, 0, 0, 6, 0, 0, 0, 0, 0, 0, 0],
  ...letters('GPS 52.2053 N 0.1218 E'),
);

/**
 * Eight by eight dots of one grey as a baseline JPEG, put together by hand: one table of quantisation, one code each
 * for "no change" and "nothing more", and so one byte of picture.
 */
export function madeJpeg(...said: readonly number[][]): Uint8Array {
  return Uint8Array.from([
    ...[0xff, 0xd8],
    ...segment(0xe0, ...letters('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0),
    ...said.flat(),
    ...segment(0xdb, 0, ...Array.from({ length: 64 }, () => 1)),
    ...segment(0xc0, 8, 0, 8, 0, 8, 1, 1, 0x11, 0),
    ...segment(0xc4, 0x00, 1, ...Array.from({ length: 15 }, () => 0), 0),
    ...segment(0xc4, 0x10, 1, ...Array.from({ length: 15 }, () => 0), 0),
    ...segment(0xda, 1, 1, 0, 0, 63, 0),
    0x3f,
    ...[0xff, 0xd9],
  ]);
}
