const NARROW = /[ilj.,:;'|!()[\]IftrJ\u2019 ]/;
const WIDE = /[mwMW@%\u2014\u2026QO]/;
const CAPITAL = /[A-Z#&]/;

/**
 * How wide a line of text runs, estimated: no font is at hand where pictures are made. On the wide side for
 * a humanist sans serif, so that what was judged to fit does fit.
 *
 * @param size  of the type, in the picture's units
 */
export function textWidth(text: string, size: number, bold = false): number {
  let ems = 0;
  for (const c of text) ems += NARROW.test(c) ? 0.34 : WIDE.test(c) ? 0.88 : CAPITAL.test(c) ? 0.68 : 0.58;
  return ems * size * (bold ? 1.07 : 1);
}

/** Text broken between words into lines no wider than asked; a single longer word keeps its line. */
export function wrapped(text: string, size: number, width: number, bold = false): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, size, bold) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** Like `wrapped`, in no more lines, but with lines of about the same length, so that no word is left alone. */
export function balanced(text: string, size: number, width: number, bold = false): string[] {
  const most = wrapped(text, size, width, bold).length;
  let best = wrapped(text, size, width, bold);
  for (let narrower = width; narrower > width / 2; narrower -= size) {
    const lines = wrapped(text, size, narrower, bold);
    if (lines.length > most) break;
    best = lines;
  }
  return best;
}
