import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bracketMiddle,
  bracketOf,
  feelerVerdict,
  leavesBetween,
  nextLeaf,
  shareInside,
  triesFor,
  triesLeft,
} from './feeler.ts';

const thou = (n: number): number => Number((n * 25.4e-6).toPrecision(15));
const LEAVES = [1.5, 2, 3, 4, 5, 6, 7, 8, 10, 12, 15].map(thou);

describe('the verdict of two leaves', () => {
  it('2 thou goes and 7 does not: in against a maximum of 7, whatever lies between', () => {
    expect(feelerVerdict({ goes: thou(2), stops: thou(7) }, { upper: thou(7) })).toBe('in');
  });
  it('2 goes and 6 does not: cannot tell against 5, in against 10', () => {
    expect(feelerVerdict({ goes: thou(2), stops: thou(6) }, { upper: thou(5) })).toBe('cannot-tell');
    expect(feelerVerdict({ goes: thou(2), stops: thou(6) }, { upper: thou(10) })).toBe('in');
  });
  it('a leaf as thick as the upper limit that goes is out; one as thick as the lower that stops is out', () => {
    expect(feelerVerdict({ goes: thou(7) }, { upper: thou(7) })).toBe('out');
    expect(feelerVerdict({ stops: thou(2) }, { lower: thou(2) })).toBe('out');
  });
  it('with two limits both must be shown', () => {
    expect(feelerVerdict({ goes: thou(3), stops: thou(4) }, { lower: thou(2), upper: thou(5) })).toBe('in');
    expect(feelerVerdict({ goes: thou(1), stops: thou(4) }, { lower: thou(2), upper: thou(5) })).toBe(
      'cannot-tell',
    );
    expect(feelerVerdict({ goes: thou(3) }, { lower: thou(2), upper: thou(5) })).toBe('cannot-tell');
  });
  it('without limits there is no verdict, without leaves no proof', () => {
    expect(feelerVerdict({ goes: 1, stops: 2 }, {})).toBeUndefined();
    expect(feelerVerdict({}, { upper: 1 })).toBe('cannot-tell');
  });
});

it('answers that contradict each other come back as an issue', () => {
  const torn = bracketOf([thou(2), thou(6)], [thou(4)]);
  expect(torn.ok).toBe(false);
  expect(!torn.ok && torn.issues[0]?.code).toBe('feeler/contradiction');
  expect(bracketOf([3], [3]).ok).toBe(false);
  expect(bracketOf([1, 2], [5, 4])).toEqual({ ok: true, value: { goes: 2, stops: 4 } });
  expect(bracketOf([], [])).toEqual({ ok: true, value: {} });
});

describe('the next leaf', () => {
  it('is the one as thick as the limit, since either answer decides', () => {
    expect(nextLeaf({ goes: thou(2), stops: thou(8) }, LEAVES, { upper: thou(5) })).toBe(thou(5));
    expect(nextLeaf({ goes: thou(2) }, LEAVES, { upper: thou(7) })).toBe(thou(7));
    expect(nextLeaf({ stops: thou(12) }, LEAVES, { lower: thou(4) })).toBe(thou(4));
  });
  it('is none once the verdict stands or no leaf lies between', () => {
    expect(nextLeaf({ goes: thou(2), stops: thou(4) }, LEAVES, { upper: thou(5) })).toBeUndefined();
    expect(nextLeaf({ goes: thou(5), stops: thou(6) }, LEAVES, { upper: thou(5.5) })).toBeUndefined();
  });
  it('halves the bracket when there is no limit', () => {
    const next = nextLeaf({ goes: 0, stops: 8 }, [1, 2, 3, 4, 5, 6, 7], {});
    expect(next).toBe(4);
  });
  it('never needs more tries than were promised, and ends decided or with no leaf between', () => {
    const gaps = fc.double({ min: 0.0001, max: 30, noNaN: true });
    fc.assert(
      fc.property(
        gaps,
        fc.uniqueArray(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 20 }),
        fc.option(fc.integer({ min: 1, max: 15 }), { nil: undefined }),
        fc.option(fc.integer({ min: 15, max: 30 }), { nil: undefined }),
        (gap, leaves, lower, upper) => {
          let bracket: { goes?: number; stops?: number } = {};
          const promised = triesLeft(bracket, leaves);
          let tries = 0;
          for (;;) {
            const next = nextLeaf(bracket, leaves, { lower, upper });
            if (next === undefined) break;
            expect(leavesBetween(bracket, leaves)).toContain(next);
            bracket = gap >= next ? { ...bracket, goes: next } : { ...bracket, stops: next };
            tries++;
          }
          expect(tries).toBeLessThanOrEqual(promised);
          const verdict = feelerVerdict(bracket, { lower, upper });
          if (verdict === undefined || verdict === 'cannot-tell')
            expect(leavesBetween(bracket, leaves)).toEqual([]);
          if (verdict === 'in') expect(gap >= (lower ?? 0) && gap <= (upper ?? 99)).toBe(true);
          if (verdict === 'out') expect(gap < (lower ?? 0) || gap >= (upper ?? 99)).toBe(true);
        },
      ),
    );
  });
  it('answers at once with a whole drawer of leaves', () => {
    const many = Array.from({ length: 500 }, (_, i) => i + 1);
    expect(nextLeaf({}, many, { upper: 123 })).toBe(123);
    expect(nextLeaf({}, many, {})).toBe(251);
  });
});

it('n leaves take ⌈log2(n + 1)⌉ tries', () => {
  expect([0, 1, 3, 4, 7, 8, 13, 20, 25].map(triesFor)).toEqual([0, 1, 2, 3, 3, 4, 4, 5, 5]);
  // The bit length of n is the same number.
  for (let n = 1; n < 2000; n++) expect(triesFor(n)).toBe(n.toString(2).length);
});

it('the middle of a bracket and its share inside a limit', () => {
  expect(bracketMiddle(0.2, 0.25).value).toBe(0.225);
  expect(bracketMiddle(0.2, 0.25).u).toBeCloseTo(0.0144337567297406, 14);
  expect(bracketMiddle(0.2, 0.25, 0.004 / Math.sqrt(3)).u).toBeCloseTo(0.0145258390463339, 12);
  expect(shareInside({ goes: 0.2, stops: 0.25 }, { upper: 0.22 })).toBeCloseTo(0.4, 12);
  expect(shareInside({ goes: 0.2 }, { upper: 0.22 })).toBeUndefined();
});
