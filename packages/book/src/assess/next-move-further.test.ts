import { normalCdf } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches, lessOf } from '../testing/tiny-sheet.ts';
import { furtherWords, moveWords } from '../words/next-move.ts';
import { furtherMoves } from './next-move-further.ts';

const hole = (upper: string, more: Record<string, unknown> = {}) => ({
  characteristics: [inches('hole', { limits: { wear: { upper } }, ...more })],
});

const further = (bench: Bench, id: string, at = '') => {
  const { reckoning, judgements } = bench.assessed();
  const judgement = judgements.find((one) => one.characteristic.id === id && (at === '' || one.worstAt))!;
  return { judgement, found: furtherMoves(reckoning, judgement) };
};

describe('what could decide, and how likely', () => {
  it('is each instrument that takes the same measure, owned ones and those to borrow, with its chance', () => {
    const bench = new Bench(hole('1.0050 in'));
    bench.read('hole', '1.0047 in', { instrument: 'tele' });
    const { judgement, found } = further(bench, 'hole');
    const dbg = found!.deciding.find(({ instrument }) => instrument === 'dbg')!;
    // u .00035 and r .00015 in: s = u²/√(u² + r²), u' = u r/√(u² + r²). In where m' ≤ L − 1.645 u', as long as the two
    // agree, |z| ≤ 1.96; out where m' ≥ L + 1.645 u'. Alone the first cannot tell, so beyond nothing decides.
    const [u, r, room] = [0.35, 0.15, 0.3];
    const D = Math.hypot(u, r);
    const [s, after] = [(u * u) / D, (u * r) / D];
    const isIn = normalCdf((room - 1.6448536 * after) / s) - normalCdf(-1.959964);
    const isOut = normalCdf(1.959964) - normalCdf((room + 1.6448536 * after) / s);
    expect(dbg.chance.in).toBeCloseTo(isIn, 4);
    expect(dbg.chance.out).toBeCloseTo(isOut, 4);
    expect(found!.deciding.some(({ owned, type }) => !owned && type === 'inside micrometer')).toBe(false);
    expect(furtherWords(judgement, found!)[0]).toMatch(
      /^Reading it again with dbg \(±0\.0003 in\) has a chance of \d+ % of deciding: in \d+ %, out [\d.]+ %\.$/,
    );
  });

  it('does not offer a micrometer for a bore, nor what was used already', () => {
    const bench = new Bench(hole('1.0050 in'));
    bench.read('hole', '1.0047 in', { instrument: 'tele' });
    const types = further(bench, 'hole').found!.deciding.map(({ type }) => type);
    expect(types).not.toContain('micrometer');
    expect(types).not.toContain('telescoping gauge');
  });

  it('counts how many more readings would decide, since only each reading’s own share gets smaller', () => {
    const bench = new Bench(hole('1.0050 in'));
    // Own and common half of u² = .35² thou²: .06125 each. .45 from the limit wants u ≤ .2736, u² ≤ .07485:
    // own/(1 + n) ≤ .0136, so n ≥ 3.5: four more.
    bench.read('hole', '1.00455 in', { instrument: 'tele' });
    expect(further(bench, 'hole').found!.repeating?.needed).toBe(4);
  });

  it('says when no number of readings can decide, since what they have in common stays', () => {
    const bench = new Bench(hole('1.0050 in'));
    // .30 from the limit wants u² ≤ .0333, under the common .06125.
    bench.read('hole', '1.0047 in', { instrument: 'tele' });
    const { judgement, found } = further(bench, 'hole');
    expect(found!.repeating?.needed).toBeUndefined();
    expect(furtherWords(judgement, found!).join(' ')).toContain(
      'what its readings have in common does not shrink',
    );
  });

  it('goes through a difference by the reading that carries the doubt', () => {
    const bench = new Bench({
      characteristics: [
        inches('bore'),
        inches('pin'),
        inches('fit', {
          relation: lessOf('bore', 'pin'),
          limits: { wear: { upper: '0.0040 in' } },
        }),
      ],
    });
    bench.read('bore', '1.0035 in', { instrument: 'tele' });
    bench.read('pin', '1.0000 in', { instrument: 'mic' });
    const { judgement, found } = further(bench, 'fit');
    const [best] = found!.deciding;
    expect(best).toMatchObject({ instrument: 'dbg', characteristic: { id: 'bore' }, places: [{}] });
    expect(best!.chance.decided).toBeGreaterThan(0.5);
    expect(furtherWords(judgement, found!)[0]).toContain('Reading bore again with dbg');
  });

  it('is the likely and owned before the unlikely or borrowed', () => {
    const bench = new Bench(hole('1.0050 in'));
    bench.read('hole', '1.0047 in', { instrument: 'tele' });
    const { deciding } = further(bench, 'hole').found!;
    expect(deciding[0]).toMatchObject({ owned: true });
  });

  it('is not asked of what is in, out, missing, or does not matter', () => {
    const bench = new Bench(hole('1.0050 in'));
    expect(further(bench, 'hole').found).toBeUndefined();
    bench.read('hole', '1.0020 in', { instrument: 'tele' });
    expect(further(bench, 'hole').found).toBeUndefined();
  });
});

describe('witnesses of one thing', () => {
  const bench = () => new Bench(hole('0.0060 in', { limits: { wear: { upper: '0.0060 in' } } }));

  it('pooled, three of .0058 ±.0007, .0060 ±.0003 and .0059 ±.0004 still cannot tell against .0060', () => {
    const three = bench();
    for (const [id, U, value] of [
      ['a', '0.0007 in', '0.0058 in'],
      ['b', '0.0003 in', '0.0060 in'],
      ['c', '0.0004 in', '0.0059 in'],
    ] as const) {
      three.declare(id, 'other', { expanded: U, coverage: 2, common_share: 0.5 });
      three.read('hole', value, { instrument: id });
    }
    const judged = three.judgement('hole');
    // Weights 1/u²: 8.163, 44.444, 25: mean 5.9467, u 1/√77.607 = .11351; p = Φ(.0533/.11351) = .681.
    const operand = judged.operand as { kind: 'value'; q: { value: number } };
    expect(operand.q.value / 25.4e-6).toBeCloseTo(5.9467, 3);
    expect(judged).toMatchObject({ status: 'cannot-tell', consistent: true });
    expect(judged.verdicts.wear?.probabilityIn).toBeCloseTo(0.681, 3);
  });

  it('that disagree are said to, keep the larger uncertainty, and are settled before anything else', () => {
    const torn = bench();
    torn.read('hole', '0.0040 in', { instrument: 'dbg' });
    torn.read('hole', '0.0080 in', { instrument: 'tele' });
    const judged = torn.judgement('hole');
    expect(judged).toMatchObject({
      status: 'cannot-tell',
      consistent: false,
      next: { move: 'settle-disagreement' },
    });
    expect(judged.cautions.map(({ message }) => message).join(' ')).toMatch(
      /disagree.*larger uncertainty is kept/,
    );
    const { q } = judged.operand as Extract<typeof judged.operand, { kind: 'value' }>;
    const u = Math.hypot(...q.terms.map((term) => term.u)) / 25.4e-6;
    // u .15 and .35: pooled .1379; χ² = 4²/(.0225 + .1225) = 110.3, so u grows by √110.3 = 10.5.
    expect(u).toBeCloseTo(0.13787 * 10.5045, 2);
  });
});

describe('what is out', () => {
  it('needs what is on record for it, and nothing more to measure', () => {
    const bench = new Bench(hole('1.0050 in'));
    bench.read('hole', '1.0100 in', { instrument: 'dbg' });
    const bare = bench.judgement('hole');
    expect(moveWords(bare, bare.next!)).toBe(
      'Out: nothing on record brings it back. Enter what is offered for it; nothing more to measure.',
    );
    const offer = {
      trust: 'quoted' as const,
      restores: [{ characteristic: 'hole', judged_by: 'new' as const }],
      repairs: [],
      needs: [],
      excludes: [],
    };
    bench.desk.write('repair-offered', { ...offer, offer: 'dear', name: 'New block', price: 900 });
    bench.desk.write('repair-offered', { ...offer, offer: 'bush', name: 'Bush', price: 40 });
    const judged = bench.judgement('hole');
    expect(judged.next).toMatchObject({ move: 'restore', offers: [{ id: 'bush' }, { id: 'dear' }] });
    expect(moveWords(judged, judged.next!)).toBe(
      'Out: it needs Bush (40), or New block (900); nothing more to measure.',
    );
  });

  it('is limited to the sizes that can be had where nothing is on record', () => {
    const sizes = [
      { name: '.020 over', shift: '0.020 in', obtainable: false },
      { name: '.030 over', shift: '0.030 in', obtainable: true },
    ];
    const bench = new Bench(hole('1.0050 in', { sizes }));
    bench.read('hole', '1.0100 in', { instrument: 'dbg' });
    const judged = bench.judgement('hole');
    expect(moveWords(judged, judged.next!)).toContain(
      'The choice is among the sizes that can be had: .030 over;',
    );
  });
});
