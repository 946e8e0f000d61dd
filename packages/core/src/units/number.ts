import { failed, type Outcome, ok } from '../issue.ts';

/** A number as somebody wrote it, and what stands behind it. */
export interface Written {
  readonly value: number;
  /** The digits as typed. */
  readonly digits: string;
  /** The rest: a unit, or nothing. */
  readonly rest: string;
}

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
};

const LONGEST = 120;
const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}...` : text);

const unreadable = (text: string, message: string, code = 'number/unreadable'): Outcome<never> =>
  failed({
    code,
    at: '',
    got: shortened(text),
    wanted: 'a number such as 0.0035, 3.5e-3, 5/16 or 1 1/2',
    message,
  });

/** Reads the number in front: decimal point, exponent, fraction or mixed number, with a sign. */
export function writtenNumber(text: string): Outcome<Written> {
  if (text.length > LONGEST)
    return unreadable(text, `The text is ${text.length} characters long. Give one number.`);
  const plain = text
    .trim()
    .replace(/[\u2010-\u2013\u2212]/g, '-')
    .replace(/\u2044/g, '/')
    .replace(
      /(\d?)([½¼¾⅛⅜⅝⅞⅓⅔])/g,
      (_, before: string, glyph: string) => `${before && `${before} `}${VULGAR[glyph]}`,
    );
  if (plain === '')
    return unreadable(text, 'Nothing was given. Give a number with its unit.', 'number/missing');

  if (/^[+-]?\d+(\/\d+)?\s*-\s*\d/.test(plain) && !/^[+-]?\d+-\d+\/\d/.test(plain))
    return unreadable(
      text,
      `"${shortened(text)}" reads like a thread or a range, not like one quantity. Give one number with its unit.`,
    );

  const comma = /^[+-]?(\d*(?:,\d+)+)(\.\d+)?/.exec(plain);
  if (comma) {
    const grouped =
      /^\d{1,3}(,\d{3})+$/.test(comma[1] ?? '') && (comma[2] || (comma[1] ?? '').split(',').length > 2);
    return grouped
      ? unreadable(text, 'Write the number without commas between the thousands.', 'number/thousands-comma')
      : unreadable(
          text,
          'A comma can mean a decimal point or thousands. Write a point for decimals and nothing between thousands.',
          'number/decimal-comma',
        );
  }

  const fraction = /^([+-]?)(?:(\d+)[\s-]+)?(\d+)\/(\d+)(?![\d.])/.exec(plain);
  const decimal = fraction ? null : /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/.exec(plain);
  const digits = fraction?.[0] ?? decimal?.[0];
  if (digits === undefined)
    return unreadable(
      text,
      `"${shortened(text)}" does not begin with a number. Give a number with its unit.`,
    );
  const rest = plain.slice(digits.length).trim();
  if (/^[.,\d]/.test(rest) && !/^1\/\D/.test(rest))
    return unreadable(
      text,
      `"${shortened(text)}" holds more than one number. Give one number with its unit.`,
    );

  const value = fraction ? mixed(fraction) : Number(digits);
  if (!Number.isFinite(value))
    return unreadable(
      text,
      `"${shortened(text)}" is no finite number. Check the digits.`,
      'number/not-finite',
    );
  return ok({ value, digits, rest });
}

function mixed([, sign, whole, top, bottom]: RegExpExecArray): number {
  const size = Number(whole ?? 0) + Number(top) / Number(bottom);
  return sign === '-' ? -size : size;
}
