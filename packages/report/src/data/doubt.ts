import { type Book, type Operand, temperatureCauseWords } from '@fettle/book';
import type { Term } from '@fettle/core';

/** A cause of doubt; like ones have one key and are named together. */
interface Cause {
  readonly words: (count: number) => string;
  readonly key: string;
}

const counted = (count: number, one: string, several: string): string =>
  count === 1 ? one : `${count} ${several}`;

function causeOf(book: Book, judged: string, source: string): Cause {
  const [kind = '', ...rest] = source.split(':');
  const id = rest.join(':');
  if (kind === 'instrument') {
    const name = book.instruments.get(id)?.body.name ?? id;
    return { key: source, words: () => `the common error of ${name}` };
  }
  if (kind === 'reading') {
    const body = book.readings.find(({ entry }) => entry.id === id)?.body;
    const name = book.characteristics.get(body?.characteristic ?? '')?.name ?? body?.characteristic ?? id;
    const instrument = book.instruments.get(body?.instrument ?? '')?.body.name ?? body?.instrument ?? '';
    return {
      key: `${kind}:${body?.instrument}:${body?.characteristic}`,
      words: (count) =>
        count === 1 && body?.characteristic === judged
          ? 'that of the reading itself'
          : `${counted(count, 'the own error of one reading', 'readings, each its own error,')} of ${name} with ${instrument}`,
    };
  }
  const fixed: Readonly<Record<string, string>> = {
    scatter: 'the scatter of the readings',
    disagreement: 'the disagreement of the witnesses',
  };
  const words = fixed[kind] ?? temperatureCauseWords(book, source) ?? source;
  return { key: kind in fixed ? kind : source, words: () => words };
}

/** What is less than this of the variance is named together. */
const SMALL = 0.01;

/** Neither nothing nor all where it is not. */
function percent(share: number): string {
  if (share > 0.995 && share < 1) return 'over 99 %';
  return share < 0.005 ? 'under 1 %' : `${Math.round(100 * share)} %`;
}

function sharesOf(book: Book, judged: string, terms: readonly Term[]): string {
  const total = terms.reduce((sum, { u }) => sum + u * u, 0);
  const causes = new Map<string, { words: Cause['words']; count: number; variance: number }>();
  for (const { source, u } of terms) {
    const { key, words } = causeOf(book, judged, source);
    const before = causes.get(key) ?? { words, count: 0, variance: 0 };
    causes.set(key, { words, count: before.count + 1, variance: before.variance + u * u });
  }
  const all = [...causes.values()].sort((a, b) => b.variance - a.variance);
  const large = all.filter(({ variance }) => variance >= SMALL * total);
  const rest = 1 - large.reduce((sum, { variance }) => sum + variance, 0) / total;
  return [
    ...large.map(({ words, count, variance }) => `${percent(variance / total)} ${words(count)}`),
    ...(large.length < all.length ? [`${percent(rest)} the rest`] : []),
  ].join('; ');
}

/**
 * The uncertainty budget in one line: every cause of doubt with its share of the variance, largest first. Of a
 * bracket it is that of its edges, of which the lower stands for both. Empty where there is no doubt or no figure.
 *
 * @param judged  the characteristic, whose own reading need not be named
 */
export function doubtWords(book: Book, judged: string, operand: Operand): string {
  if (operand.kind === 'missing') return '';
  const q = operand.kind === 'value' ? operand.q : (operand.lower ?? operand.upper);
  if (!q || q.terms.length === 0) return '';
  return `${operand.kind === 'value' ? '' : 'at its edges '}${sharesOf(book, judged, q.terms)}`;
}
