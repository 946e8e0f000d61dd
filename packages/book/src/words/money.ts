/** A sum without a sign of currency: the job has one money and does not say which. */
export const money = (sum: number): string => {
  const rounded = Math.round(sum * 100) / 100;
  return Number.isInteger(rounded) ? String(rounded) : rounded.toFixed(2);
};

/** A sum that was worked out, not said: whole from 10 up. */
export const about = (sum: number): string => (sum >= 10 ? String(Math.round(sum)) : money(sum));

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
