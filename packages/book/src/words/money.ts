import type { Book } from '../fold/book.ts';

/** The currency a job names, by its code in ISO 4217; undefined where it names none. */
export type Currency = string | undefined;

export const currencyOf = ({ opened }: Book): Currency => opened?.body.currency;

/** Decimals of a currency's smaller coin: 2 of most, none of some. */
const decimalsOf = (currency: Currency): number =>
  currency === undefined
    ? 2
    : (new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ??
      2);

/** `26 EUR`, `9.50 EUR`; the bare number where the job names no currency, which is said beside it and not guessed. */
export function money(sum: number, currency: Currency): string {
  const decimals = decimalsOf(currency);
  const rounded = Math.round(sum * 10 ** decimals) / 10 ** decimals;
  const figure = Number.isInteger(rounded) ? String(rounded) : rounded.toFixed(decimals);
  return currency === undefined ? figure : `${figure} ${currency}`;
}

/** A sum that was worked out, not said: whole from 10 up. */
export const about = (sum: number, currency: Currency): string =>
  money(sum >= 10 ? Math.round(sum) : sum, currency);

/** Said once wherever sums are shown without a currency. */
export const NO_CURRENCY =
  'No currency is named in this job: sums are bare numbers. One is named when the job is opened.';

/** `72 %`; near the ends one figure more, and never a certainty that is none. */
export function chance(share: number): string {
  if (share > 0.999) return 'over 99.9 %';
  if (share < 0.001) return 'under 0.1 %';
  return `${(share * 100).toFixed(share > 0.95 || share < 0.05 ? 1 : 0)} %`;
}

/** `3 weeks`, `10 days`, `at once`. */
export function daysWords(days: number): string {
  if (days === 0) return 'at once';
  const rounded = Math.round(days * 10) / 10;
  const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
  return rounded % 7 === 0 ? count(rounded / 7, 'week') : count(rounded, 'day');
}
