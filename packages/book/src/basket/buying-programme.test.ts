import fc from 'fast-check';
import highs from 'highs';
import { expect, it } from 'vitest';
import {
  type Buyable,
  type BuyingProblem,
  cheapestBuying as searched,
  shortfall,
} from './buying-programme.ts';

/** What a search finds that ran to its end. */
const cheapestBuying = (...asked: Parameters<typeof searched>) => {
  const { found, finished } = searched(...asked);
  expect(finished).toBe(true);
  return found;
};

const problem = (
  needs: Record<string, number>,
  buyables: readonly (Omit<Buyable, 'covers'> & { covers: Record<string, number> })[],
  carriage: Record<string, number> = {},
): BuyingProblem => ({
  needs: new Map(Object.entries(needs)),
  buyables: buyables.map((one) => ({ ...one, covers: new Map(Object.entries(one.covers)) })),
  carriage: new Map(Object.entries(carriage)),
});

it('takes the kit only where the singles cost more, by hand', () => {
  const things = [
    { id: 'kit', price: 20, covers: { gasket: 1, seal: 2 } },
    { id: 'gasket', price: 9, covers: { gasket: 1 } },
    { id: 'seal', price: 6, covers: { seal: 1 } },
  ];
  // One gasket and two seals: 9 + 2 × 6 = 21 against 20. One seal only: 9 + 6 = 15 against 20.
  expect(cheapestBuying(problem({ gasket: 1, seal: 2 }, things))).toMatchObject({ price: 20 });
  expect(cheapestBuying(problem({ gasket: 1, seal: 1 }, things))).toMatchObject({ price: 15 });
});

it('lets carriage turn the choice: the dearer thing from where one buys already', () => {
  const things = [
    { id: 'shells', price: 90, covers: { shells: 1 }, supplier: 'a' },
    { id: 'seal of a', price: 12, covers: { seal: 1 }, supplier: 'a' },
    { id: 'seal of b', price: 8, covers: { seal: 1 }, supplier: 'b' },
  ];
  // 90 + 12 + 10 = 112 from one; 90 + 8 + 10 + 7 = 115 from two.
  const both = cheapestBuying(problem({ shells: 1, seal: 1 }, things, { a: 10, b: 7 }));
  expect([...both!.counts.keys()]).toEqual(['shells', 'seal of a']);
  expect(both).toMatchObject({ goods: 102, carriage: 10, price: 112 });
  expect(cheapestBuying(problem({ shells: 1, seal: 1 }, things, { a: 10, b: 3 }))!.price).toBe(111);
});

it('keeps what is no use alone with what it needs, and rivals apart', () => {
  const things = [
    { id: 'grind', price: 50, covers: { crank: 1 }, most: 1, excludes: ['standard'] },
    { id: 'undersize', price: 5, covers: { shells: 1 }, most: 1, needs: ['grind'] },
    { id: 'standard', price: 9, covers: { shells: 1 }, most: 1 },
  ];
  expect(cheapestBuying(problem({ shells: 1 }, things))!.price).toBe(9);
  expect(cheapestBuying(problem({ crank: 1, shells: 1 }, things))!.price).toBe(55);
  expect(cheapestBuying(problem({ crank: 1 }, things), { atLeastOne: 'standard' })).toBeUndefined();
  expect(cheapestBuying(problem({ shells: 1 }, things), { below: 9 })).toBeUndefined();
});

it('says when it was broken off', () => {
  const needs = Object.fromEntries(Array.from({ length: 9 }, (_, i) => [`n${i}`, 3]));
  const things = Array.from({ length: 18 }, (_, i) => ({
    id: `t${i}`,
    price: 7 + (i % 5),
    covers: { [`n${i % 9}`]: 1, [`n${(i * 4 + 1) % 9}`]: 1 },
    supplier: i % 2 === 0 ? 'a' : 'b',
  }));
  expect(searched(problem(needs, things, { a: 9, b: 8 }), {}, 1).finished).toBe(false);
});

it('says what nobody brings', () => {
  const one = problem({ piston: 4, seal: 1 }, [{ id: 'p', price: 1, covers: { piston: 1 }, most: 3 }]);
  expect([...shortfall(one)]).toEqual([
    ['piston', 1],
    ['seal', 1],
  ]);
  expect(cheapestBuying(one)).toBeUndefined();
});

const NEEDS = ['a', 'b', 'c'] as const;
const small = fc.record({
  needs: fc.tuple(...NEEDS.map(() => fc.integer({ min: 0, max: 3 }))),
  things: fc.array(
    fc.record({
      price: fc.integer({ min: 0, max: 30 }),
      covers: fc.tuple(...NEEDS.map(() => fc.integer({ min: 0, max: 2 }))),
      supplier: fc.constantFrom('x', 'y'),
      most: fc.integer({ min: 1, max: 3 }),
      excludes: fc.option(fc.integer({ min: 0, max: 4 }), { nil: undefined }),
      needs: fc.option(fc.integer({ min: 0, max: 4 }), { nil: undefined }),
    }),
    { minLength: 1, maxLength: 5 },
  ),
  carriage: fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 12 })),
});
type Small = typeof small extends fc.Arbitrary<infer T> ? T : never;

/** Rivals are things of which only one is had. */
const rivals = ({ things }: Small): ReadonlySet<number | undefined> =>
  new Set(things.flatMap(({ excludes }, i) => (excludes === undefined ? [] : [i, excludes])));

const asProblem = ({ needs, things, carriage }: Small): BuyingProblem =>
  problem(
    Object.fromEntries(NEEDS.map((need, i) => [need, needs[i]!]).filter(([, n]) => n !== 0)),
    things.map(({ price, covers, supplier, most, excludes, needs: after }, i) => ({
      id: `t${i}`,
      price,
      covers: Object.fromEntries(NEEDS.map((need, k) => [need, covers[k]!]).filter(([, n]) => n !== 0)),
      supplier,
      most: rivals({ needs, things, carriage }).has(i) ? 1 : most,
      ...(excludes !== undefined && excludes !== i && excludes < things.length
        ? { excludes: [`t${excludes}`] }
        : {}),
      ...(after !== undefined && after !== i && after < things.length ? { needs: [`t${after}`] } : {}),
    })),
    { x: carriage[0], y: carriage[1] },
  );

/** Every count of everything tried one by one: the plain way. */
function byTrying({ needs, buyables, carriage }: BuyingProblem): number {
  let best = Number.POSITIVE_INFINITY;
  const counts = buyables.map(() => 0);
  const most = buyables.map(({ most: had, covers }) =>
    Math.min(had ?? 9, Math.max(1, ...[...covers].map(([n, c]) => Math.ceil((needs.get(n) ?? 0) / c)))),
  );
  const index = new Map(buyables.map(({ id }, i) => [id, i]));
  const tried = (i: number): void => {
    if (i < buyables.length) {
      for (let n = 0; n <= most[i]!; n++) {
        counts[i] = n;
        tried(i + 1);
      }
      return;
    }
    const brings = (need: string): number =>
      buyables.reduce((sum, { covers }, k) => sum + counts[k]! * (covers.get(need) ?? 0), 0);
    if ([...needs].some(([need, count]) => brings(need) < count)) return;
    const broken = buyables.some(
      ({ needs: after = [], excludes = [] }, k) =>
        counts[k]! > 0 &&
        (after.some((id) => counts[k]! > most[k]! * (counts[index.get(id)!] ?? 0)) ||
          excludes.some((id) => counts[k]! + counts[index.get(id)!]! > 1)),
    );
    if (broken) return;
    const from = new Set(
      buyables.flatMap(({ supplier }, k) => (counts[k]! > 0 && supplier ? [supplier] : [])),
    );
    const sum =
      buyables.reduce((total, { price }, k) => total + price * counts[k]!, 0) +
      [...from].reduce((total, supplier) => total + (carriage.get(supplier) ?? 0), 0);
    best = Math.min(best, sum);
  };
  tried(0);
  return best;
}

it('finds what trying every basket finds, and nothing cheaper exists', () => {
  fc.assert(
    fc.property(small, (drawn) => {
      const one = asProblem(drawn);
      const found = cheapestBuying(one);
      const plain = byTrying(one);
      expect(found?.price ?? Number.POSITIVE_INFINITY).toBeCloseTo(plain, 6);
      if (!found) return;
      expect(cheapestBuying(one, { below: found.price })).toBeUndefined();
      expect(cheapestBuying(one, { inParts: true })!.price).toBeLessThanOrEqual(found.price + 1e-6);
    }),
    { numRuns: 150 },
  );
});

/** The same programme in the text format that linear-programming tools read. */
function asText({ needs, buyables, carriage }: BuyingProblem): string {
  const x = (i: number): string => `x${i}`;
  const suppliers = [...carriage.keys()];
  const rows = [...needs].map(
    ([need, count], k) =>
      ` n${k}: ${buyables.map(({ covers }, i) => `${covers.get(need) ?? 0} ${x(i)}`).join(' + ')} >= ${count}`,
  );
  const from = buyables.map(
    ({ supplier }, i) => ` f${i}: ${x(i)} - 50 y${suppliers.indexOf(supplier!)} <= 0`,
  );
  return [
    'Minimize',
    ` obj: ${[...buyables.map(({ price }, i) => `${price} ${x(i)}`), ...suppliers.map((s, k) => `${carriage.get(s)} y${k}`)].join(' + ')}`,
    'Subject To',
    ...rows,
    ...from,
    'Bounds',
    ...buyables.map(({ most }, i) => ` 0 <= ${x(i)} <= ${most ?? 50}`),
    'General',
    ` ${buyables.map((_, i) => x(i)).join(' ')}`,
    'Binary',
    ` ${suppliers.map((_, k) => `y${k}`).join(' ')}`,
    'End',
  ].join('\n');
}

/** Its types say that the module is no function; it is one. */
const loadHighs = highs as unknown as () => Promise<{
  solve(programme: string): { Status: string; ObjectiveValue: number };
}>;

it('agrees with another solver on baskets of a real size', async () => {
  const solver = await loadHighs();
  const names = Array.from({ length: 14 }, (_, i) => `n${i}`);
  let state = 20_251;
  const draw = (below: number): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
  for (let round = 0; round < 8; round++) {
    const needs = Object.fromEntries(names.map((name) => [name, 1 + draw(8)]));
    const singles = names.flatMap((name) =>
      ['a', 'b', 'c'].map((supplier) => ({
        id: `${name} of ${supplier}`,
        price: 3 + draw(40),
        covers: { [name]: 1 },
        supplier,
      })),
    );
    const kits = Array.from({ length: 9 }, (_, k) => ({
      id: `kit ${k}`,
      price: 30 + draw(160),
      covers: Object.fromEntries(names.filter(() => draw(3) === 0).map((name) => [name, 1 + draw(4)])),
      supplier: ['a', 'b', 'c'][draw(3)]!,
    }));
    const one = problem(needs, [...singles, ...kits], { a: 15, b: 22, c: 9 });
    const witness = solver.solve(asText(one));
    expect(witness.Status).toBe('Optimal');
    expect(cheapestBuying(one)!.price).toBeCloseTo(witness.ObjectiveValue, 6);
  }
});
