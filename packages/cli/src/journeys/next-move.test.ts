import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

interface Judged {
  readonly characteristic: string;
  readonly place: Readonly<Record<string, string>>;
  readonly status: string;
  readonly next?: { readonly move: string; readonly offers?: readonly { offer: string }[] };
  readonly further?: {
    readonly deciding: readonly {
      name: string;
      owned: boolean;
      chance: { in: number; out: number; decided: number };
    }[];
    readonly repeating?: { needed?: number | 'many' };
  };
}
interface Today {
  readonly steps: readonly {
    characteristic: string;
    at: number;
    minutes: number;
    fits: boolean;
    decides: readonly { judgement: string; chance: number }[];
  }[];
  readonly left: readonly { judgement: string; why: string }[];
}

const desk = new CommandDesk();
let judged: readonly Judged[];

beforeAll(async () => {
  await desk.good('new', '--demo', 'linnet');
  judged = (await desk.json<{ judgements: readonly Judged[] }>('check', 'linnet')).judgements;
});
afterAll(() => desk.clear());

const of = (id: string, at: Record<string, string> = {}): Judged =>
  judged.find(
    ({ characteristic, place }) =>
      characteristic === id && Object.entries(at).every(([axis, value]) => place[axis] === value),
  )!;

describe('the next move of what cannot be told', () => {
  it('is known for every one, and says what could decide it unless it does not matter', () => {
    const open = judged.filter(({ status }) => status === 'cannot-tell');
    expect(open.length).toBeGreaterThan(10);
    for (const { next, further } of open) {
      expect(next).toBeDefined();
      if (next!.move === 'does-not-matter') expect(further).toBeUndefined();
      else expect(further).toBeDefined();
    }
  });

  it('bore 3 at 20 °C is likely decided by the dial bore gauge, and by no number of repeats', () => {
    const { further } = of('bore.diameter', { cylinder: '3' });
    expect(further!.deciding[0]).toMatchObject({ name: 'Dial bore gauge', owned: true });
    expect(further!.deciding[0]!.chance.in).toBeGreaterThan(0.5);
    expect(further!.repeating!.needed).toBeUndefined();
  });

  it('the taper of bore 3, three witnesses pooled, is next to hopeless', () => {
    const { status, further } = of('bore.taper', { cylinder: '3' });
    expect(status).toBe('cannot-tell');
    for (const { chance } of further!.deciding) expect(chance.decided).toBeLessThan(0.2);
  });

  it('the head is likely found out of flat by a dial indicator', () => {
    const [best] = of('head.flatness').further!.deciding;
    expect(best).toMatchObject({ name: 'Dial indicator' });
    expect(best!.chance.out).toBeGreaterThan(0.5);
    expect(best!.chance.in).toBeLessThan(0.01);
  });
});

it('what is out names what brings it back, or that nothing on record does', () => {
  const out = judged.filter(({ status, next }) => status === 'out' && next);
  expect(out.length).toBeGreaterThan(20);
  for (const { next } of out) expect(next!.move).toBe('restore');
  expect(of('crank.main-journal', { main: '3' }).next!.offers).toMatchObject([{ offer: 'crank-grind' }]);
  expect(of('pan.pickup-to-floor').next!.offers).toEqual([]);
});

describe('the plan of the day', () => {
  it('reads each thing once, in cumulative minutes, and leaves out what does not matter', async () => {
    const { steps, left } = await desk.json<Today>('today', 'linnet', '--minutes', '60');
    let before = 0;
    for (const { at, minutes, fits } of steps) {
      expect(at).toBeCloseTo(before + minutes, 6);
      expect(fits).toBe(at <= 60);
      before = at;
    }
    const skipped = left.filter(({ why }) => why === 'does-not-matter').map(({ judgement }) => judgement);
    expect(skipped).toEqual([
      'crank.main-journal@1',
      'crank.rod-journal@1',
      'crank.rod-journal@3',
      'crank.rod-journal@4',
    ]);
    const decided = steps.flatMap(({ decides }) => decides.map(({ judgement }) => judgement));
    for (const one of skipped) expect(decided).not.toContain(one);
  });

  it('says that its minutes are assumed, and the same twice', async () => {
    const first = await desk.good('today', 'linnet', '--minutes', '60');
    expect(first.out).toContain('Assumed, not timed');
    expect(first.out).toMatch(/\d+ readings in 1 h settle about \d+ of \d+ open verdicts/);
    expect((await desk.good('today', 'linnet', '--minutes', '60')).out).toBe(first.out);
  });

  it('refuses minutes that are none, in words', async () => {
    for (const minutes of ['0', 'soon', '-5', '1e9x']) {
      expect(await desk.refused('today', 'linnet', `--minutes=${minutes}`)).toEqual([
        'plan/unreadable-minutes',
      ]);
    }
  });
});
