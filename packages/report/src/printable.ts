import { charactersOf, typeface } from './typeface.ts';

/** Characters that mean the same as one the typeface has. */
const SAME: Readonly<Record<string, string>> = {
  '\r\n': '\n',
  '\r': '\n',
  '\t': ' ',
  '\u2028': '\n',
  '\u2029': '\n',
  '\u00b5': '\u03bc',
  '\u2010': '-',
  '\u2011': '-',
};

/** A word longer than this may be broken anywhere: no column of the book is wider. */
const LONGEST_WORD = 18;
const ZERO_WIDTH_SPACE = '\u200b';

let shown: ReadonlySet<number> | undefined;

function canBeShown(character: string): boolean {
  if (character === '\n') return true;
  if (!shown) {
    // Only what every cut has: a heading must not lose what a line of text keeps.
    const [first, ...others] = typeface().map(charactersOf);
    shown = new Set([...first!].filter((c) => others.every((cut) => cut.has(c))));
  }
  const code = character.codePointAt(0)!;
  return code >= 0x20 && !(code >= 0x7f && code < 0xa0) && shown.has(code);
}

/**
 * Text as it can be printed. What the typeface has no sign for, and what cannot be seen but turns text about or hides
 * it, is printed as its number in brackets, so that nothing is lost or silently altered: `[U+1F600]`.
 */
export function printableText(text: string): string {
  const plain = text
    .normalize('NFC')
    .replace(/\r\n|[\r\t\u2028\u2029\u00b5\u2010\u2011]/g, (said) => SAME[said] ?? said);
  let out = '';
  for (const character of plain)
    out += canBeShown(character)
      ? character
      : `[U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}]`;
  return out.replace(new RegExp(`\\S{${LONGEST_WORD + 1},}`, 'g'), breakable);
}

/**
 * Breaks are offered only where a line cannot be broken anyway, as it can after a hyphen or a stroke: what is copied
 * out of the book is then seldom changed by them.
 */
const breakable = (word: string): string =>
  word
    .split(/(?<=[-/])/)
    .map(brokenPiece)
    .join('');

function brokenPiece(piece: string): string {
  if ([...piece].length <= LONGEST_WORD) return piece;
  return piece
    .split(/(?<=[.,;:_@])/)
    .map((part) =>
      [...part].length <= LONGEST_WORD
        ? part
        : [...part].map((c, i) => ((i + 1) % 8 === 0 ? `${c}${ZERO_WIDTH_SPACE}` : c)).join(''),
    )
    .join(ZERO_WIDTH_SPACE);
}

/** What must come out whole when it is copied; each has a line to itself. */
const WHOLE: ReadonlySet<string> = new Set(['job', 'fingerprint', 'hash', 'sheet_hash', 'sha256', 'file']);

/** Every text of plain JSON made printable; keys, which are the program's own, stay. Drawings are passed by. */
export function printable<T>(data: T): T {
  if (typeof data === 'string') return printableText(data) as T;
  if (Array.isArray(data)) return data.map(printable) as T;
  if (typeof data === 'object' && data !== null)
    return Object.fromEntries(
      Object.entries(data).map(([key, value]) => {
        if (key === 'svg') return [key, value];
        const text = printable(value);
        return [
          key,
          WHOLE.has(key) && typeof text === 'string' ? text.replaceAll(ZERO_WIDTH_SPACE, '') : text,
        ];
      }),
    ) as T;
  return data;
}
