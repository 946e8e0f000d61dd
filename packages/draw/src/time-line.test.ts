import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type TimeChart, timeLineSvg } from './time-line.ts';
import { timeLineText } from './time-line-text.ts';

const CHART: TimeChart = {
  unit: { days: 7, name: 'weeks' },
  rows: [
    { name: 'Grind', start: 0, finish: 14, latest: 28, slack: 0, critical: true, text: 'sets the date' },
    { name: 'Shells', start: 14, finish: 21, latest: 30, slack: 0, critical: true, text: '' },
    { name: 'Seals', start: 0, finish: 7, latest: 7, slack: 14, critical: false, text: '' },
  ],
  due: { days: 49, text: 'the date, 7 weeks' },
  end: { early: 21, middle: 24, late: 33, text: 'all done' },
};
const PICTURE = { title: 'Time line', desc: 'Three tasks.', width: 800, profile: 'desk' } as const;

it('draws a later start further right, and what sets the date otherwise than the rest, without colour', () => {
  const drawn = timeLineSvg(CHART, { ...PICTURE, paper: true });
  const at = [...drawn.matchAll(/data-mark="(critical|task)" data-x="([\d.]+)"/g)].map(([, kind, x]) => [
    kind,
    Number(x),
  ]);
  expect(at.map(([kind]) => kind)).toEqual(['critical', 'critical', 'task']);
  expect(at[1]![1]).toBeGreaterThan(at[0]![1] as number);
  expect(at[2]![1]).toBe(at[0]![1]);
  const colours = new Set(
    [...drawn.matchAll(/#([0-9a-f]{6})/g)].map(([, hex]) => hex!.slice(0, 2) === hex!.slice(2, 4)),
  );
  expect([...colours]).toEqual([true]);
});

it('puts tasks, whiskers, slack and the date into lines of text', () => {
  const text = timeLineText(CHART);
  expect(text[0]).toMatch(/^Grind {3} │█+─+ +╎$/);
  expect(text[1]).toMatch(/^Shells {2} │ +█+─+ +╎$/);
  expect(text[2]).toMatch(/^Seals {3} │▒+·+ +╎$/);
  expect(text[3]).toMatch(/^all done │ +├─+┼─+┤ +╎$/);
  expect(text.at(-1)).toContain('weeks from today; ╎ the date, 7 weeks');
});

it('says nothing that is not a number, however wild what it is given', () => {
  const wild = fc.double();
  const row = fc.record({
    name: fc.string(),
    start: wild,
    finish: wild,
    latest: wild,
    slack: wild,
    critical: fc.boolean(),
    text: fc.string(),
  });
  fc.assert(
    fc.property(
      fc.array(row, { maxLength: 4 }),
      wild,
      fc.constantFrom(120, 390, 1200),
      (rows, due, width) => {
        const chart = { ...CHART, rows, due: { days: due, text: 'due' } };
        const drawn = timeLineSvg(chart, { ...PICTURE, width }).replace(/<text[^>]*>[^<]*<\/text>/g, '');
        expect(drawn).not.toMatch(/NaN|Infinity|undefined/);
        expect(timeLineText(chart).join('')).not.toMatch(/NaN|undefined/);
      },
    ),
  );
});
