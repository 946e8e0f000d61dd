import { expect, it } from 'vitest';
import { morningPage } from './data/morning.ts';
import { morningCardPdf } from './morning-card.ts';
import { folded, lived } from './testing/linnet-job.ts';
import { infoOf, pagesOf, textOf, typeSizesOf } from './testing/pdf.ts';

const PRINTED_AT = '2026-05-01T20:30:00Z';

const left = () => {
  const { desk } = lived();
  desk.write('opening-blocked', { opening: 'rod-tunnels', name: 'Rod tunnels', by: 'rag', count: 3 });
  desk.write('joint-state', {
    joint: 'core-plug',
    name: 'Core plug <b>3</b>',
    state: 'curing',
    started: '2026-05-01T18:00:00Z',
    cures_after: '24 h',
  });
  return desk;
};

it.each(['a4', 'letter'] as const)(
  'says on one page of %s what was left, large and by its own clock',
  async (paper) => {
    const toPrint = { book: folded(left().entries), paper, printedAt: PRINTED_AT, zone: 'Asia/Kolkata' };
    const pdf = await morningCardPdf(toPrint);
    expect(pagesOf(pdf)).toHaveLength(1);
    const text = textOf(pdf);
    expect(text).toContain('as of Sat 2 May 2026, 02:00');
    expect(text).toContain('Rod tunnels: 3 rags in, 0 out: 3 are still inside');
    // Six in the evening and a day, five and a half hours ahead; two and a half hours of it are over.
    expect(text).toContain('Core plug <b>3</b>: curing until Sat 2 May 2026, 23:30, 21 h 30 min to go');
    // Everything but the foot is to be read at arm's length.
    expect(typeSizesOf(pdf).filter((size) => size > 13.9).length).toBeGreaterThan(30);
    expect(infoOf(pdf)['Page size']).toContain(paper === 'a4' ? 'A4' : 'letter');
  },
);

it('stays one page however much was left, and counts what found no room', async () => {
  const desk = left();
  for (let i = 0; i < 90; i++)
    desk.write('joint-state', {
      joint: `joint-${i}`,
      name: `Joint number ${i} of the pan`,
      state: 'finger-tight',
    });
  const pdf = await morningCardPdf({ book: folded(desk.entries), paper: 'a4', printedAt: PRINTED_AT });
  expect(pagesOf(pdf)).toHaveLength(1);
  const text = textOf(pdf);
  const shown = text.match(/Joint number \d+ of the pan/g)?.length ?? 0;
  const counted = Number(/and (\d+) more, on the page/.exec(text)?.[1]);
  // Ninety and the core plug.
  expect(shown + counted).toBeGreaterThanOrEqual(90);
  expect(shown + counted).toBeLessThanOrEqual(91);
  expect(text).toContain('Rod tunnels');
});

it('goes by the time of printing: what has cured by then is not on it', () => {
  const book = folded(left().entries);
  const joints = (printedAt: string) =>
    morningPage(book, { printedAt }).sections.find(({ heading }) => heading === 'Joints left open')?.lines ??
    [];
  expect(joints(PRINTED_AT).filter((line) => line.startsWith('Core plug'))).toHaveLength(1);
  expect(joints('2026-05-02T18:00:00Z').filter((line) => line.startsWith('Core plug'))).toHaveLength(0);
});
