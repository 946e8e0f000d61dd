import fc from 'fast-check';
import { expect, it } from 'vitest';
import { barsText, closingLineText, costFrontierText, limitRailText, pressureCurveText } from './index.ts';

it('draws a reading between its limits as a block between two posts', () => {
  const rail = limitRailText({ lower: 0, upper: 10, from: 4, to: 6 }, 40);
  expect(rail).toMatch(/^─+┃─+▓+─+┃─+$/);
});

it('draws a reading across a limit as a block that the post shows through', () => {
  expect(limitRailText({ upper: 10, from: 9, to: 11 }, 40)).toMatch(/▓┃▓/);
});

it('lets an interval without an upper edge run off the rail', () => {
  expect(limitRailText({ upper: 10, from: 4 }, 40)).toMatch(/▶$/);
});

it('keeps the rail as wide as asked, whatever is on it', () => {
  const mark = fc.option(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { nil: undefined });
  fc.assert(
    fc.property(mark, mark, mark, mark, fc.integer({ min: 20, max: 120 }), (lower, upper, a, b, width) => {
      const [from, to] = a !== undefined && b !== undefined && a > b ? [b, a] : [a, b];
      expect([...limitRailText({ lower, upper, from, to }, width)]).toHaveLength(width);
    }),
  );
});

it('makes the greatest bar as long as the width and others in proportion', () => {
  const [half, whole] = barsText(
    [
      { label: 'a', value: 5, text: '5' },
      { label: 'b', value: 10, text: '10' },
    ],
    20,
  );
  expect(half).toContain('█'.repeat(10));
  expect(half).not.toContain('█'.repeat(11));
  expect(whole).toContain('█'.repeat(20));
});

it('puts a higher pressure on a higher line', () => {
  const lines = pressureCurveText(
    ['600', '2000'],
    [
      {
        mark: 'h',
        points: [
          { value: 10, band: 1 },
          { value: 40, band: 1 },
        ],
      },
    ],
    [{ speed: 0, lower: 15 }],
  );
  const row = (column: number): number => lines.findIndex((line) => line[7 + column] === 'h');
  expect(row(16)).toBeLessThan(row(4));
  expect(lines.join('\n')).toContain('┴');
});

it('names each cover with its state, its reasons and the hours to reopen it', () => {
  const [line] = closingLineText([{ name: 'pan', reopenHours: 5, state: 'held', reasons: 3 }]);
  expect(line).toContain('HELD, 3 reasons');
  expect(line).toContain('5 h to reopen');
});

it('puts a set of repairs as high as it is sure and as far out as it costs', () => {
  const lines = costFrontierText(
    [
      { price: 0, chance: 0, mark: 'a' },
      { price: 50, chance: 0.5, mark: 'b' },
      { price: 100, chance: 1, mark: 'c' },
    ],
    { wanted: 0.8, cap: 75 },
  );
  const at = (mark: string) => {
    const row = lines.findIndex((line) => line.includes(mark));
    return { row, column: lines[row]!.indexOf(mark) };
  };
  const [a, b, c] = [at('a'), at('b'), at('c')];
  expect(a.row - b.row).toBe(b.row - c.row);
  expect(Math.abs(b.column - a.column - (c.column - b.column))).toBeLessThanOrEqual(1);
  expect(lines[c.row]).toMatch(/^ 100 % │/);
  expect(lines[b.row]).toMatch(/^ {2}50 % │/);
  // The wanted chance lies between b and c, the cap between their prices.
  const wanted = lines.findIndex((line) => line.includes('╌'));
  expect(wanted).toBeGreaterThan(c.row);
  expect(wanted).toBeLessThan(b.row);
  const cap = lines[a.row]!.indexOf('╎');
  expect(cap).toBeGreaterThan(b.column);
  expect(cap).toBeLessThan(c.column);
});

it('a cap past all prices is not drawn, and no figure that is none', () => {
  const lines = costFrontierText([{ price: 10, chance: Number.NaN, mark: 'x' }], { cap: 5000 });
  expect(lines.join('')).not.toMatch(/x|╎|NaN/);
});
