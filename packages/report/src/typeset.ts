import { fileURLToPath } from 'node:url';
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import { printable } from './printable.ts';
import { typeface } from './typeface.ts';

export type Paper = 'a4' | 'letter';

/** The templates are shipped beside `src` and `dist` and read when something is printed. */
const TEMPLATES = fileURLToPath(new URL('../templates/', import.meta.url));

let made: NodeCompiler | undefined;

/** One compiler for the process: it keeps what it has read and set, so that a second printing is quick. */
function compiler(): NodeCompiler {
  if (made) return made;
  const before = process.env.FONTCONFIG_FILE;
  process.env.FONTCONFIG_FILE = `${TEMPLATES}fonts/fonts.conf`;
  try {
    made = NodeCompiler.create({ workspace: TEMPLATES, fontArgs: [{ fontBlobs: typeface() }] });
  } finally {
    if (before === undefined) delete process.env.FONTCONFIG_FILE;
    else process.env.FONTCONFIG_FILE = before;
  }
  return made;
}

/** Words that no row of a table is sure to hold on one page; drawings are not words. */
const LONG = 600;

function isLong(data: unknown): boolean {
  if (typeof data === 'string') return data.length > LONG;
  if (typeof data !== 'object' || data === null) return false;
  return Object.entries(data).some(([key, value]) => key !== 'svg' && isLong(value));
}

/** A picture the template reads under the name given here. */
export type Pictures = ReadonlyMap<string, Uint8Array>;

/**
 * A template filled with data, as PDF/A-2b with tags.
 * Data goes in as JSON and is only ever set as text: nothing a user wrote is read as markup.
 *
 * @param printedAt  ISO 8601; the PDF's own date, so that the same data gives the same bytes
 * @throws  when the template cannot be set, which is the program's fault
 */
export function typeset(
  template: 'book.typ' | 'wall.typ' | 'slip.typ' | 'tags.typ' | 'card.typ' | 'picture.typ',
  data: Readonly<Record<string, unknown>>,
  { paper, printedAt, pictures = new Map() }: { paper: Paper; printedAt: string; pictures?: Pictures },
): Uint8Array {
  const seconds = Math.floor(Date.parse(printedAt) / 1000);
  if (!Number.isFinite(seconds)) throw new RangeError(`"${printedAt}" is no time in ISO 8601`);
  const typst = compiler();
  const shadows = [...pictures].map(([name, bytes]) => [`${TEMPLATES}${name}`, Buffer.from(bytes)] as const);
  for (const [path, bytes] of shadows) typst.mapShadow(path, bytes);
  try {
    const compiled = typst.compile({
      mainFilePath: `${TEMPLATES}${template}`,
      inputs: {
        data: JSON.stringify({ ...printable(data), long: isLong(data) }),
        paper: paper === 'a4' ? 'a4' : 'us-letter',
      },
    });
    const fault = compiled.takeError();
    if (fault) throw new Error(`${template} cannot be set: ${JSON.stringify(typst.fetchDiagnostics(fault))}`);
    const document = compiled.result;
    if (!document) throw new Error(`${template} cannot be set, and no reason is given`);
    return new Uint8Array(
      typst.pdf(document, { pdfStandard: 'a-2b', pdfTags: true, creationTimestamp: seconds }),
    );
  } finally {
    for (const [path] of shadows) typst.unmapShadow(path);
    typst.evictCache(10);
  }
}
