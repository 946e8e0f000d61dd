import { expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches, lessOf } from '../testing/tiny-sheet.ts';
import { furtherWords } from '../words/next-move.ts';
import { furtherMoves } from './next-move-further.ts';

const further = (bench: Bench, id: string) => {
  const { reckoning, judgements } = bench.assessed();
  const judgement = judgements.find((one) => one.characteristic.id === id)!;
  return { judgement, found: furtherMoves(reckoning, judgement) };
};
const gap = (upper: string, more: Record<string, unknown> = {}) =>
  new Bench({ characteristics: [inches('gap', { limits: { wear: { upper } }, ...more })] });

it('is an indicator to borrow, with its chance over the bracket, where none is owned', () => {
  const bench = gap('0.0067 in');
  bench.read('gap', { goes: '0.006 in', stops: '0.007 in' }, { instrument: 'leaves' });
  bench.read('gap', { goes: '0.0015 + 0.005 in' }, { instrument: 'leaves' });
  const { judgement, found } = further(bench, 'gap');
  const [one] = found!.deciding;
  expect(one).toMatchObject({ type: 'dial indicator', owned: false, first: true });
  expect(one!.chance.decided).toBeGreaterThan(0.02);
  expect(one!.chance.decided).toBeLessThan(1);
  expect(furtherWords(judgement, found!)[0]).toMatch(
    /^Reading it with a borrowed dial indicator \(±[\d.]+ in\), if the part can be moved through its gap, has a chance of/,
  );
});

it('is the one owned before one to borrow, and the likelier the finer it is', () => {
  const chanceWith = (U: string) => {
    const bench = gap('0.0067 in');
    bench.declare('dial', 'dial indicator', { expanded: U, coverage: 2, common_share: 0.5 });
    bench.read('gap', { goes: '0.006 in', stops: '0.007 in' }, { instrument: 'leaves' });
    const { found } = further(bench, 'gap');
    expect(found!.deciding.every(({ owned }) => owned)).toBe(true);
    return found!.deciding[0]!.chance.decided;
  };
  expect(chanceWith('0.0001 in')).toBeGreaterThan(chanceWith('0.0003 in'));
});

it('is the two sizes a clearance follows from, each with its own tool, where leaves cannot tell', () => {
  const limits = { new: { lower: '1.0000 in', upper: '1.0010 in' } };
  const bench = new Bench({
    characteristics: [
      inches('hole', { with: 'dial bore gauge', limits }),
      inches('pin', { with: 'micrometer', limits }),
      inches('fit', { relation: lessOf('hole', 'pin'), limits: { wear: { upper: '0.0047 in' } } }),
    ],
  });
  bench.read('fit', { goes: '0.004 in', stops: '0.005 in' }, { instrument: 'leaves' });
  bench.read('fit', { goes: '0.0015 + 0.003 in' }, { instrument: 'leaves' });
  const { judgement, found } = further(bench, 'fit');
  const sizes = found!.deciding.find((one) => one.sizes)!;
  expect(sizes).toMatchObject({
    owned: true,
    sizes: [
      { characteristic: { id: 'hole' }, name: 'dbg' },
      { characteristic: { id: 'pin' }, name: 'mic' },
    ],
  });
  // √(.0003² + .0002²) = .00036.
  expect(sizes.expanded / 25.4e-6).toBeCloseTo(0.3606, 3);
  expect(furtherWords(judgement, found!).join(' ')).toContain('Reading hole with dbg and pin with mic');
});

it('is not said while a single leaf owned may decide, nor of a gap no leaf has closed', () => {
  const open = gap('0.0400 in');
  open.read('gap', { goes: '0.007 in' }, { instrument: 'leaves' });
  expect(further(open, 'gap').found?.deciding ?? []).toEqual([]);
  const early = gap('0.005 in');
  early.read('gap', { goes: '0.002 in', stops: '0.007 in' }, { instrument: 'leaves' });
  expect(early.judgement('gap').next).toMatchObject({ move: 'try-leaf', leaf: '0.005 in' });
  expect(further(early, 'gap').found?.deciding ?? []).toEqual([]);
});
