import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Poppler's programs read a PDF independently of what wrote it. Without them the tests fail, and say so. */
function poppler(
  program: 'pdftotext' | 'pdffonts' | 'pdfinfo' | 'pdfimages' | 'pdftoppm' | 'pdftocairo',
  pdf: Uint8Array,
  ...options: string[]
): Buffer {
  const folder = mkdtempSync(join(tmpdir(), 'report-'));
  try {
    const file = join(folder, 'printed.pdf');
    writeFileSync(file, pdf);
    const after = program === 'pdftotext' || program === 'pdftocairo' ? ['-'] : [];
    return execFileSync(program, [...options, file, ...after], {
      maxBuffer: 1e8,
      stdio: ['ignore', 'pipe', 'ignore'],
    });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT')
      throw new Error(`${program} is not installed: the tests of printed things need poppler-utils`);
    throw error;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const said = (...asked: Parameters<typeof poppler>): string => poppler(...asked).toString('utf8');

/** The text in the order in which it is set, cell by cell; breaks offered inside long words taken out, blanks made one. */
export const textOf = (pdf: Uint8Array): string =>
  said('pdftotext', pdf, '-raw').replaceAll('\u200b', '').replace(/\s+/g, ' ');

/** Each page's text, with its line breaks. */
export const pagesOf = (pdf: Uint8Array): string[] =>
  said('pdftotext', pdf, '-layout').split('\f').slice(0, -1);

/** The typeface is 1.3 of its size from ascender to descender, which is what poppler gives as a word's height. */
const HEIGHT_OF_TYPE = 1.3;

/** The size of each word's type [pt]. */
export const typeSizesOf = (pdf: Uint8Array): number[] =>
  [...said('pdftotext', pdf, '-bbox').matchAll(/yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)"/g)].map(
    ([, top, bottom]) => (Number(bottom) - Number(top)) / HEIGHT_OF_TYPE,
  );

export const fontsOf = (pdf: Uint8Array): { name: string; embedded: boolean }[] =>
  said('pdffonts', pdf)
    .split('\n')
    .slice(2)
    .filter((line) => line.trim() !== '')
    .map((line) => ({
      name: line.split(/\s+/)[0]!.replace(/^[A-Z]{6}\+/, ''),
      embedded: /\s(yes|no)\s+(yes|no)\s+(yes|no)\s/.exec(line)?.[1] === 'yes',
    }));

export const imagesOf = (pdf: Uint8Array): { width: number; height: number }[] =>
  [...said('pdfimages', pdf, '-list').matchAll(/^ *\d+ +\d+ +image +(\d+) +(\d+)/gm)].map(
    ([, width, height]) => ({ width: Number(width), height: Number(height) }),
  );

/** One page as a grey picture, at so many dots to the inch. */
export function pictureOf(
  pdf: Uint8Array,
  page: number,
  dpi: number,
): { width: number; height: number; grey: Uint8Array } {
  const pgm = poppler('pdftoppm', pdf, '-gray', '-singlefile', '-r', `${dpi}`, '-f', `${page}`);
  const [head, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(pgm.toString('latin1', 0, 60))!;
  return { width: Number(width), height: Number(height), grey: new Uint8Array(pgm.subarray(head.length)) };
}

const MM_OF_POINT = 25.4 / 72;

/** Every drawn frame of a page with right angles: width and height [mm]. */
export function framesOf(pdf: Uint8Array, page: number): { width: number; height: number }[] {
  const svg = said('pdftocairo', pdf, '-svg', '-f', `${page}`, '-l', `${page}`);
  return [...svg.matchAll(/<path (?:style="fill:none;|fill="none")[^>]* d="([^"]*)"[^>]*>/g)].flatMap(
    ([whole, path]) => {
      const corners = [...path!.matchAll(/[ML] ([-\d.]+) ([-\d.]+)/g)].map(([, x, y]) => [
        Number(x),
        Number(y),
      ]);
      const scale = Number(/transform="matrix\(([-\d.]+)/.exec(whole)?.[1] ?? 1);
      const span = (axis: 0 | 1): number => {
        const along = corners.map((corner) => corner[axis]!);
        return Math.abs(scale) * (Math.max(...along) - Math.min(...along)) * MM_OF_POINT;
      };
      return corners.length >= 4 && !/[CQ]/.test(path!) ? [{ width: span(0), height: span(1) }] : [];
    },
  );
}

export const infoOf = (pdf: Uint8Array): Readonly<Record<string, string>> =>
  Object.fromEntries(
    said('pdfinfo', pdf)
      .split('\n')
      .filter((line) => line.includes(':'))
      .map((line) => [line.slice(0, line.indexOf(':')), line.slice(line.indexOf(':') + 1).trim()]),
  );

/** The XMP packet, which a PDF/A carries uncompressed. */
export const metadataOf = (pdf: Uint8Array): string => Buffer.from(pdf).toString('latin1');
