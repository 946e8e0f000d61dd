import fc from 'fast-check';
import { expect, it } from 'vitest';
import { dateChance, pertOfWay } from './meeting-the-date.ts';
import { networkOf, scheduleOf } from './schedule.ts';
import { pertMoments, type ThreePoint, threePoint, triangularDays } from './three-point.ts';

const point = (soonest: number, likely: number, latest: number): ThreePoint => ({
  soonest,
  likely,
  latest,
  spread: latest > soonest,
});

/**
 * A construction project of fourteen tasks, in weeks, from a handbook of operations research (McGraw-Hill); from
 * memory, and held together by its own arithmetic: the printed means and variances follow from the three points.
 */
const PUBLISHED: readonly [string, string, [number, number, number], number, number][] = [
  ['A', '', [1, 2, 3], 2, 1 / 9],
  ['B', 'A', [2, 3.5, 8], 4, 1],
  ['C', 'B', [6, 9, 18], 10, 4],
  ['D', 'C', [4, 5.5, 10], 6, 1],
  ['E', 'C', [1, 4.5, 5], 4, 4 / 9],
  ['F', 'E', [4, 4, 10], 5, 1],
  ['G', 'D', [5, 6.5, 11], 7, 1],
  ['H', 'E G', [5, 8, 17], 9, 4],
  ['I', 'C', [3, 7.5, 9], 7, 1],
  ['J', 'F I', [3, 9, 9], 8, 1],
  ['K', 'J', [4, 4, 4], 4, 0],
  ['L', 'J', [1, 5.5, 7], 5, 1],
  ['M', 'H', [1, 2, 3], 2, 1 / 9],
  ['N', 'K L', [5, 5.5, 9], 6, 4 / 9],
];
const published = networkOf(
  PUBLISHED.map(([id, needs]) => ({ id, needs: needs.split(' ').filter((one) => one !== '') })),
);

it('has the printed means and variances of a published project, and its critical path', () => {
  for (const [, , [a, m, b], mean, variance] of PUBLISHED) {
    const moments = pertMoments(point(a, m, b));
    expect(moments.mean).toBeCloseTo(mean, 12);
    expect(moments.variance).toBeCloseTo(variance, 12);
  }
  const means = new Map(PUBLISHED.map(([id, , , mean]) => [id, mean]));
  const schedule = scheduleOf(published, (id) => means.get(id)!);
  expect(schedule.days).toBe(44);
  expect(schedule.critical).toEqual(['A', 'B', 'C', 'E', 'F', 'J', 'L', 'N']);
  // Printed: slack of D and G 4, of H and M 4, of I 2, of K 1.
  const slack = (id: string): number => schedule.slots.get(id)!.slack;
  expect(['D', 'G', 'H', 'M', 'I', 'K'].map(slack)).toEqual([4, 4, 4, 4, 2, 1]);
  const times = new Map(PUBLISHED.map(([id, , [a, m, b]]) => [id, point(a, m, b)]));
  const pert = pertOfWay(schedule, times);
  expect(pert.mean).toBeCloseTo(44, 12);
  expect(pert.deviation).toBeCloseTo(3, 12);
  // By drawing, with triangles in place of PERT's betas: each mean (a + m + b)/3 is later where b is far off.
  const drawn = dateChance(published, times, 47);
  const longer = ['A', 'B', 'C', 'E', 'F', 'J', 'L', 'N']
    .map((id) => times.get(id)!)
    .reduce((sum, { soonest, likely, latest }) => sum + (soonest + likely + latest) / 3, 0);
  expect(drawn.middle).toBeGreaterThan(longer - 1);
  expect(drawn.chance).toBeGreaterThan(0.4);
  expect(drawn.chance).toBeLessThan(0.8413);
});

/** The distribution of a triangle, by its definition. */
const below = ({ soonest: a, likely: m, latest: b }: ThreePoint, t: number): number => {
  if (t <= a) return 0;
  if (t >= b) return 1;
  return t < m ? (t - a) ** 2 / ((b - a) * (m - a)) : 1 - (b - t) ** 2 / ((b - a) * (b - m));
};

const anyPoint = fc
  .tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 20 }))
  .map((three) => three.sort((a, b) => a - b))
  .filter(([a, , b]) => b! > a!)
  .map(([a, m, b]) => point(a!, m!, b!));

it('draws what the distribution would have drawn', () => {
  fc.assert(
    fc.property(anyPoint, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (three, u) => {
      expect(below(three, triangularDays(three, u))).toBeCloseTo(u, 9);
    }),
  );
});

// Three deviations of a share over 20 000 trials are 0.011 at most.
const SLACK = 0.011;

it('meets a date with two beside each other as often as both are below it', () => {
  fc.assert(
    fc.property(anyPoint, anyPoint, fc.double({ min: 0, max: 22, noNaN: true }), (one, other, due) => {
      const network = networkOf([
        { id: 'one', needs: [] },
        { id: 'other', needs: [] },
      ]);
      const times = new Map([
        ['one', one],
        ['other', other],
      ]);
      const exact = below(one, due) * below(other, due);
      expect(Math.abs(dateChance(network, times, due).chance! - exact)).toBeLessThan(1.4 * SLACK);
    }),
    { numRuns: 25 },
  );
});

it('meets a date with two after each other as their convolution says', () => {
  const [one, other] = [point(5, 10, 24), point(2, 3, 12)];
  const network = networkOf([
    { id: 'b', needs: ['a'] },
    { id: 'a', needs: [] },
  ]);
  const times = new Map([
    ['a', one],
    ['b', other],
  ]);
  for (const due of [10, 15, 18, 21, 27, 33]) {
    let exact = 0;
    const steps = 4000;
    for (let k = 0; k < steps; k++)
      exact += below(other, due - triangularDays(one, (k + 0.5) / steps)) / steps;
    expect(Math.abs(dateChance(network, times, due).chance! - exact)).toBeLessThan(SLACK);
  }
});

it('takes times without a spread at their word', () => {
  const network = networkOf([{ id: 'grind', needs: [] }]);
  const times = new Map([['grind', point(14, 14, 14)]]);
  expect(dateChance(network, times, 14)).toMatchObject({ chance: 1, early: 14, late: 14 });
  expect(dateChance(network, times, 13)).toMatchObject({ chance: 0 });
});

it('leaves out a need that closes a circle and says which', () => {
  const network = networkOf([
    { id: 'a', needs: ['b'] },
    { id: 'b', needs: ['a'] },
  ]);
  expect(network.circles).toEqual([['b', 'a']]);
  expect(scheduleOf(network, () => 2).days).toBe(4);
});

it('reads times as people say them, and refuses what is out of order', () => {
  expect(threePoint({ likely: '2 weeks', latest: '4 weeks' })).toEqual(point(14, 14, 28));
  expect(threePoint({ likely: '2 weeks', soonest: '3 weeks' })).toBeUndefined();
  expect(threePoint({ likely: 'soon' })).toBeUndefined();
});

it('has no slack on the longest way and finishes when it does, whatever the network', () => {
  const drawn = fc.array(
    fc.record({
      days: fc.integer({ min: 0, max: 9 }),
      needs: fc.array(fc.nat({ max: 9 }), { maxLength: 3 }),
    }),
    { minLength: 1, maxLength: 9 },
  );
  fc.assert(
    fc.property(drawn, (list) => {
      const tasks = list.map(({ needs }, i) => ({
        id: `${i}`,
        needs: needs.filter((j) => j < i).map(String),
      }));
      const schedule = scheduleOf(networkOf(tasks), (id) => list[Number(id)]!.days);
      expect(schedule.critical.reduce((sum, id) => sum + list[Number(id)]!.days, 0)).toBe(schedule.days);
      for (const id of schedule.critical) expect(schedule.slots.get(id)!.slack).toBe(0);
      for (const { slack } of schedule.slots.values()) expect(slack).toBeGreaterThanOrEqual(0);
    }),
  );
});
