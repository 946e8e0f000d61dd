import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

let read: Buffer[] | undefined;

/** The cuts of Atkinson Hyperlegible Next that the templates ask for, read once. */
export function typeface(): Buffer[] {
  const require = createRequire(import.meta.url);
  read ??= [
    require.resolve(
      '@expo-google-fonts/atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf',
    ),
    require.resolve(
      '@expo-google-fonts/atkinson-hyperlegible-next/400Regular_Italic/AtkinsonHyperlegibleNext_400Regular_Italic.ttf',
    ),
    require.resolve(
      '@expo-google-fonts/atkinson-hyperlegible-next/600SemiBold/AtkinsonHyperlegibleNext_600SemiBold.ttf',
    ),
    require.resolve(
      '@expo-google-fonts/atkinson-hyperlegible-next/600SemiBold_Italic/AtkinsonHyperlegibleNext_600SemiBold_Italic.ttf',
    ),
  ].map((path) => readFileSync(path));
  return read;
}

/**
 * Which characters a TrueType font has a glyph for, from its `cmap` table (formats 4 and 12).
 *
 */
export function charactersOf(font: Buffer): ReadonlySet<number> {
  const found = new Set<number>();
  const tables = font.readUInt16BE(4);
  for (let i = 0; i < tables; i++) {
    const record = 12 + 16 * i;
    if (font.toString('latin1', record, record + 4) !== 'cmap') continue;
    const cmap = font.readUInt32BE(record + 8);
    const subtables = font.readUInt16BE(cmap + 2);
    for (let k = 0; k < subtables; k++) {
      const at = cmap + font.readUInt32BE(cmap + 4 + 8 * k + 4);
      const format = font.readUInt16BE(at);
      if (format === 4) bySegments(font, at, found);
      else if (format === 12) byGroups(font, at, found);
    }
  }
  return found;
}

function bySegments(font: Buffer, at: number, found: Set<number>): void {
  const twice = font.readUInt16BE(at + 6);
  const ends = at + 14;
  const starts = ends + twice + 2;
  const deltas = starts + twice;
  const offsets = deltas + twice;
  for (let s = 0; s < twice; s += 2) {
    const [start, end] = [font.readUInt16BE(starts + s), font.readUInt16BE(ends + s)];
    const [delta, offset] = [font.readUInt16BE(deltas + s), font.readUInt16BE(offsets + s)];
    for (let c = start; c <= end && c < 0xffff; c++) {
      const listed = offset === 0 ? c : font.readUInt16BE(offsets + s + offset + 2 * (c - start));
      if (listed !== 0 && ((listed + delta) & 0xffff) !== 0) found.add(c);
    }
  }
}

function byGroups(font: Buffer, at: number, found: Set<number>): void {
  const groups = font.readUInt32BE(at + 12);
  for (let g = 0; g < groups; g++) {
    const group = at + 16 + 12 * g;
    for (let c = font.readUInt32BE(group); c <= font.readUInt32BE(group + 4); c++) found.add(c);
  }
}
