/** The columns of the plain list of characteristics, in the order in which they are written. */
export const CSV_COLUMNS = [
  'id',
  'line',
  'name',
  'group',
  'kind',
  'unit',
  'measurand',
  'position',
  'places',
  'new lower',
  'new upper',
  'target',
  'wear lower',
  'wear upper',
  'document',
  'page',
  'trust',
  'with',
  'note',
] as const;
export type CsvColumn = (typeof CSV_COLUMNS)[number];

/** A heading as it is compared: `New_Lower` is `new lower`. */
export const headingMeant = (heading: string): string =>
  heading
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');

/** An id out of words: `Rod journal, rear` is `rod-journal-rear`. */
export const slug = (words: string): string =>
  words
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9.]+/g, '-')
    .replace(/^[-.]+|[-.]+$/g, '')
    .slice(0, 120);

/**
 * A text that a spreadsheet would take for a formula gets an apostrophe in front, as the spreadsheet itself does,
 * and loses it again when read.
 */
export const guarded = (text: string): string =>
  /^[=@']/.test(text) || /^[+-](?!\s*[\d.])/.test(text) ? `'${text}` : text;
export const unguarded = (text: string): string => (/^'[=@'+-]/.test(text) ? text.slice(1) : text);
