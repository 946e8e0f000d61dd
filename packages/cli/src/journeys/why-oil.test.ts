import type { Block } from '@fettle/book';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();
beforeAll(() => desk.good('new', '--demo', 'linnet'));
afterAll(() => desk.clear());

const titled = (blocks: readonly Block[], words: RegExp): Block =>
  blocks.find(({ title }) => words.test(title))!;
/** Ids of entries that a cell names by their beginning. */
const named = (cell: string): string[] => [...cell.matchAll(/\(([0-9a-f-]{13})\)/g)].map(([, id]) => id!);

describe('why the plan', () => {
  it('tells every verdict that forces something, what settles it, and an entry that is in the ledger', async () => {
    const blocks = await desk.json<Block[]>('why', 'linnet', 'plan');
    const log = await desk.json<{ entries: { id: string }[] } | { id: string }[]>('log', 'linnet');
    const ids = (Array.isArray(log) ? log : log.entries).map(({ id }) => id);
    const { rows } = titled(blocks, /has to be settled/).table!;
    const of = (verdict: string): readonly string[] => rows.find(([name]) => name === verdict)!;
    expect(of('Main journal 3')[1]).toBe('Crank grind, all mains and rods');
    expect(of('Rod journal 2')[1]).toBe('Crank grind, all mains and rods');
    for (const row of rows) {
      const [entry] = named(row[2]!);
      expect(ids.filter((id) => id.startsWith(entry!))).toHaveLength(1);
    }
  });

  it('adds up: what is taken costs what the plan costs, and the method has its source', async () => {
    const blocks = await desk.json<Block[]>('why', 'linnet', 'plan');
    const { best } = await desk.json<{ best: { price: number } }>('plan', 'linnet');
    const taken = titled(blocks, /on offer/).table!.rows.filter(([mark]) => mark === 'taken');
    expect(taken.reduce((sum, row) => sum + Number.parseFloat(row[2]!), 0)).toBe(best.price);
    expect(titled(blocks, /How the plan/).lines.join(' ')).toMatch(/Genz/);
    expect(titled(blocks, /How the plan/).notes.join(' ')).toMatch(/assumed/);
    const pressures = titled(blocks, /pressures with the plan/).table!.rows;
    for (const [, wanted, pressure, u, distance] of pressures) {
      const figures = (text: string): number[] => [...text.matchAll(/[\d.]+/g)].map(([one]) => Number(one));
      const value = figures(pressure!)[0]!;
      const limits = figures(wanted!);
      const near = Math.min(...limits.map((limit) => Math.abs(value - limit)));
      expect(near / figures(u!)[0]!).toBeCloseTo(figures(distance!)[0]!, 0);
    }
  });
});

describe('why the diagnosis', () => {
  it('tells what each fault had before, how well it foretold the readings, and what that makes of it', async () => {
    const blocks = await desk.json<Block[]>('why', 'linnet', 'diagnosis');
    const share = (cell: string): number => (cell.startsWith('under') ? 0.5 : Number.parseFloat(cell));
    const { rows } = titled(blocks, /before and after/).table!;
    const products = rows.map((row) => share(row[1]!) * (Number.parseFloat(row[2]!) || 0));
    const total = products.reduce((a, b) => a + b, 0);
    // Bayes’ theorem by hand, from the figures as printed.
    rows.forEach((row, i) => {
      expect(Math.abs((100 * products[i]!) / total - share(row[3]!))).toBeLessThan(2);
    });
    expect(titled(blocks, /How the faults/).lines.join(' ')).toMatch(/Bayes.*Simpson.*Kass/s);
    expect(titled(blocks, /gauge readings/).table!.rows).toHaveLength(5);
    expect(titled(blocks, /assumed, without a source/).lines.length).toBeGreaterThan(10);
    expect(titled(blocks, /clearances it goes by/).table!.rows.length).toBeGreaterThan(10);
  });
});
