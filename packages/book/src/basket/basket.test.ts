import { expect, it } from 'vitest';
import type { Body } from '../ledger/bodies.ts';
import { decidedEngine } from '../testing/decided-engine.ts';
import { alternativePrices, gapWords, standingWords, sumWords } from '../words/basket.ts';
import { basketOf } from './basket.ts';
import { orderStandings } from './order-standing.ts';

const NOW = Date.parse('2026-03-01T12:00:00Z');

type Engine = ReturnType<typeof decidedEngine>;

const supply = (
  { desk }: Engine,
  id: string,
  price: number,
  covers: Body<'supply-offered'>['covers'],
  more: Partial<Body<'supply-offered'>> = {},
): void => {
  desk.write('supply-offered', { supply: id, name: id, price, covers, trust: 'quoted', ...more });
};

const replaced = (bench: Engine, ...parts: string[]): void => {
  for (const part of parts) bench.desk.write('disposition', { part, decision: 'replace', why: 'worn' });
};

it('buys for each part that is to be replaced, one for each position', () => {
  const bench = decidedEngine();
  replaced(bench, 'spring-1', 'spring-2');
  supply(bench, 'single', 9, [{ need: 'spring', count: 1 }]);
  supply(bench, 'pair', 16, [{ need: 'spring', count: 2 }]);
  const basket = basketOf(bench.book(), { now: NOW, taken: [] });
  expect(basket.needs).toMatchObject([{ key: 'spring', count: 2, had: 0 }]);
  expect(basket).toMatchObject({ price: 16, proven: true });
  expect(basket.lines.map(({ id, count }) => [id, count])).toEqual([['pair', 1]]);
  expect(alternativePrices(basket).map(({ words }) => words)).toEqual([
    // Two singles: 2 × 9 = 18 against 16.
    '18, 2 more: with single; without pair; singles only, no kit.',
  ]);
});

it('does not take shells of standard size for shells of an undersize', () => {
  const bench = decidedEngine();
  for (const part of ['shells-old-1', 'shells-old-2'])
    bench.desk.write('disposition', { part, decision: 'replace', size: '.010 under', why: 'ground' });
  supply(bench, 'standard', 40, [{ need: 'shells', count: 2 }]);
  const short = basketOf(bench.book(), { now: NOW, taken: [] });
  expect(short.lines).toEqual([]);
  expect(short.unmet).toMatchObject([{ key: 'shells .010 under', count: 2 }]);
  expect(gapWords(short)[0]).toBe(
    '2 × Main shells, .010 under: nothing on record brings it. standard: of another size, or of none that was said.',
  );
  supply(bench, 'undersize', 55, [{ need: 'shells', count: 2, size: '.010 under' }]);
  expect(basketOf(bench.book(), { now: NOW, taken: [] })).toMatchObject({ price: 55, unmet: [] });
});

it('takes a repair of the plan for what it covers, once, whoever asks for it', () => {
  const bench = decidedEngine();
  bench.desk.write('repair-offered', {
    offer: 'rebore',
    name: 'Rebore with pistons',
    price: 400,
    restores: [{ characteristic: 'bore', judged_by: 'new', size: '.030 over' }],
    covers: [{ need: 'piston', count: 2, size: '.030 over' }],
    repairs: [],
    needs: [],
    excludes: [],
    trust: 'quoted',
  });
  bench.desk.write('disposition', { part: 'block', decision: 'machine', size: '.030 over', why: 'worn' });
  for (const part of ['piston-old-1', 'piston-old-2'])
    bench.desk.write('disposition', { part, decision: 'replace', size: '.030 over', why: 'bored' });
  const basket = basketOf(bench.book(), { now: NOW, taken: ['rebore'] });
  // One price for the machining, the pistons and the plan's own wish.
  expect(basket).toMatchObject({ price: 400, unmet: [] });
  expect(basket.needs.map(({ key, count }) => [key, count])).toEqual([
    ['machining of block', 1],
    ['piston .030 over', 2],
    ['rebore', 1],
  ]);
});

it('counts what was ordered, leaves it out of what is still to buy, and holds both to the cap', () => {
  const bench = decidedEngine();
  replaced(bench, 'spring-1', 'spring-2');
  supply(bench, 'single', 9, [{ need: 'spring', count: 1 }]);
  bench.desk.write('order', { item: 'single', supply: 'single', price: 9 });
  const basket = basketOf(bench.book(), { now: NOW, taken: [] });
  expect(basket).toMatchObject({ price: 9, spent: 9 });
  expect(basket.needs).toMatchObject([{ count: 1, had: 1 }]);
  expect(sumWords(basket)).toBe('Together 9; with 9 on orders so far 18.');
  expect(sumWords({ ...basket, cap: 15 })).toBe(
    'Together 9; with 9 on orders so far 18, 3 OVER the cap of 15.',
  );
});

it('charges carriage once for a supplier, and bars what comes too late', () => {
  const bench = decidedEngine();
  replaced(bench, 'spring-1', 'spring-2');
  bench.desk.write('supply-wanted', { need: 'gasket', name: 'Gasket', count: 1 });
  bench.desk.write('terms-given', { party: 'post', carriage: 7 });
  supply(bench, 'single', 9, [{ need: 'spring', count: 1 }], { supplier: 'post' });
  supply(bench, 'gasket-slow', 1, [{ need: 'gasket', count: 1 }], { lead_time: '9 weeks' });
  supply(bench, 'gasket-post', 5, [{ need: 'gasket', count: 1 }], { supplier: 'post' });
  const basket = basketOf(bench.book(), { now: NOW, taken: [], days: 28 });
  expect(basket).toMatchObject({ goods: 23, price: 30, barred: [{ why: 'not-in-time' }] });
  expect(basket.carriage).toEqual([{ supplier: 'post', charge: 7 }]);
  expect(basketOf(bench.book(), { now: NOW, taken: [], days: 70 }).price).toBe(26);
});

it('buys what a ground crank needs once it is back, without grinding it again', () => {
  const bench = decidedEngine();
  const grind: Pick<Body<'repair-offered'>, 'repairs' | 'excludes' | 'trust'> = {
    repairs: [],
    excludes: [],
    trust: 'quoted',
  };
  bench.desk.write('repair-offered', {
    ...grind,
    offer: 'grind',
    name: 'Crank grind',
    price: 300,
    needs: [],
    restores: [{ characteristic: 'journal', judged_by: 'new', size: '.010 under' }],
  });
  bench.desk.write('repair-offered', {
    ...grind,
    offer: 'undersize',
    name: 'Undersize shells',
    price: 60,
    needs: ['grind'],
    restores: [],
    covers: [{ need: 'shells', count: 2, size: '.010 under' }],
  });
  bench.desk.write('disposition', { part: 'crank', decision: 'machine', size: '.010 under', why: 'worn' });
  for (const part of ['shells-old-1', 'shells-old-2'])
    bench.desk.write('disposition', { part, decision: 'replace', size: '.010 under', why: 'ground' });
  expect(basketOf(bench.book(), { now: NOW, taken: ['grind', 'undersize'] }).price).toBe(360);
  // Wanted for the shells alone, the grind that they are no use without comes with them.
  expect(basketOf(bench.book(), { now: NOW, taken: [] }).price).toBe(360);
  bench.desk.write('part-reworked', {
    part: 'crank',
    what: 'ground',
    condition: 'machined',
    size: '.010 under',
  });
  expect(basketOf(bench.book(), { now: NOW, taken: ['grind', 'undersize'] })).toMatchObject({
    price: 60,
    unmet: [],
  });
});

it('says why there is no basket where what is on record excludes one another', () => {
  const bench = decidedEngine();
  const offer = (id: string, need: string, excludes: string[]): void => {
    bench.desk.write('repair-offered', {
      offer: id,
      name: id,
      price: 5,
      restores: [],
      covers: [{ need, count: 1 }],
      repairs: [],
      needs: [],
      excludes,
      trust: 'quoted',
    });
  };
  offer('one', 'crank', ['other']);
  offer('other', 'block', []);
  replaced(bench, 'crank', 'block');
  const basket = basketOf(bench.book(), { now: NOW, taken: [] });
  expect(basket).toMatchObject({ none: 'excluded', lines: [] });
  expect(sumWords(basket)).toMatch(/^No basket covers it all/);
});

it('says of what arrived that it is not measured until it is', () => {
  const bench = decidedEngine();
  const order = bench.desk.write('order', { item: 'Piston 1', part: 'piston-new' });
  const words = (): string => standingWords(orderStandings(bench.book(), bench.assessed().judgements)[0]!);
  expect(words()).toBe('not here yet');
  bench.desk.write('receipt', { order: order.id });
  expect(words()).toContain('not entered as a part');
  bench.part('piston-new', 'piston-1', 'new');
  expect(words()).toContain('NOT MEASURED');
  bench.read('piston', '2.9990 in', { at: '1', instrument: 'mic' });
  expect(words()).toBe('here as piston-new: measured on arrival (1 reading)');
});
