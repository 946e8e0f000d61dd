const ENTITY: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

// Control characters, halves of a surrogate pair and non-characters.
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones XML 1.0 forbids.
const FORBIDDEN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Cs}/gu;

/**
 * Text that may stand in an SVG element or attribute. Characters that XML forbids are dropped, and the
 * micro sign becomes the Greek letter, since some print fonts have only that one.
 */
export function escaped(text: string): string {
  return text
    .replace(FORBIDDEN, '')
    .replaceAll('\u00b5', '\u03bc')
    .replace(/[&<>"']/g, (c) => ENTITY[c] ?? '');
}
