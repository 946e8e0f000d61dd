// A long job folded and judged, and the verdict of one more reading on it. Budgets: 50 ms, and a frame of 16 ms.
import { asFittedNow, assessed, assessment, foldedBook, nextEntry, readSheet } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { demoJob, grownTo } from './big-job.mjs';
import { compared } from './side-by-side.mjs';

const COUNT = 5000;

export async function judging() {
  const { entries: demo, sheets } = demoJob();
  const entries = grownTo(COUNT, demo);
  const text = JSON.stringify(entries);
  const fold = (all) => foldedBook(all, sheets, readSheet);
  const judge = (book) => assessment(book, asFittedNow(book), CATALOGUE);
  await compared(
    `A job of ${COUNT} entries (budget: folded and judged in 50 ms)`,
    {
      'JSON.parse of the same entries': () => JSON.parse(text),
      folded: () => fold(entries),
      'judged, folded before': () => judge(fold(demo)),
      'folded and judged': () => judge(fold(entries)),
    },
    { rounds: 7 },
  );
  const reading = demo.findLast(({ kind }) => kind === 'reading');
  const more = nextEntry(
    entries,
    {
      job: demo[0].job,
      device: 'bench-more',
      who: 'Sam',
      at: '2026-03-01T10:00:00Z',
      id: reading.id.replace(/^0/, '1'),
    },
    'reading',
    reading.body,
  );
  const all = [...entries, more];
  await compared(
    `One more reading on ${COUNT} entries, to its verdict (budget 16 ms)`,
    {
      'all folded and all judged again': () => judge(fold(all)),
      'all folded, its own characteristic judged': () => {
        const book = fold(all);
        return assessed(book, asFittedNow(book), CATALOGUE, reading.body.characteristic);
      },
    },
    { rounds: 7 },
  );
}
