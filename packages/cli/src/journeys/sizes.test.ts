import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();
const INCH = 0.0254;
/** A demo is typed in; a machine that does much else takes its time [ms]. */
const SLOW = 60_000;

interface Family {
  readonly characteristic: string;
  readonly chosen: string;
  readonly chance: number;
  readonly passed_over?: string;
  readonly set_by: { at: string; worst: number; cleans_up_at: number };
  readonly options: { size: string; obtainable: boolean; chance: number; offers: { offer: string }[] }[];
  readonly forced_by: { characteristic: string; at: string; status: string }[];
  readonly singles: {
    offer: string;
    price: number;
    all_price: number;
    mends: string[];
    leaves: string[];
    uneven: string[];
  }[];
  readonly finished: {
    at: string;
    lower: number;
    upper: number;
    target: number;
    proven?: { lower: number; upper: number; by: string; possible: boolean };
    suits: string[];
  }[];
  readonly drawing: { clearance: string; lower: number; upper: number }[];
}
interface Sizes {
  readonly families: Family[];
  readonly thicknesses: { gap: string; best: string }[];
  readonly skim: { depth: number; ends: { by: string; depth: number }[] };
}

interface Stack {
  readonly worst: { least: number; greatest: number };
  readonly root_sum_square: number;
  readonly outside?: number;
  readonly terms: { characteristic: string; from: string; share: number }[];
  readonly tighten: { characteristic: string };
}

let sizes: Sizes;
beforeAll(async () => {
  await desk.good('new', '--demo', 'linnet');
  sizes = await desk.json<Sizes>('sizes', 'linnet');
}, SLOW);
afterAll(() => desk.clear());

const family = (id: string): Family => sizes.families.find(({ characteristic }) => characteristic === id)!;

describe('to which sizes the demo engine goes', () => {
  it('bores to .030 over: bore 3, 3.5071 as read and .00056 larger at 20 °C, sets it; .020 would do and is no longer made', () => {
    const bores = family('bore.diameter');
    expect(bores.set_by.at).toBe('3/top/thrust');
    // 3.5071 (1 + 11.4e-6 · 14) = 3.50766 in.
    expect(bores.set_by.worst / INCH).toBeCloseTo(3.50766, 5);
    expect(bores.chosen).toBe('.030 over');
    expect(bores.chance).toBeGreaterThan(0.999);
    expect(bores.passed_over).toBe('.020 over');
    expect(bores.options.map(({ size, obtainable }) => [size, obtainable])).toEqual([
      ['.020 over', false],
      ['.030 over', true],
      ['.040 over', true],
    ]);
    expect(bores.options[1]!.offers.map(({ offer }) => offer)).toEqual(['rebore']);
  });

  it('against it one sleeve at 165: the other bores may be used again by wear, and no piston runs in limits all down them', () => {
    const [sleeve] = family('bore.diameter').singles;
    expect(sleeve).toMatchObject({ offer: 'sleeve', price: 165, all_price: 660, mends: ['3'], leaves: [] });
    expect(sleeve?.uneven).toEqual([
      'piston.skirt-clearance@1',
      'piston.skirt-clearance@2',
      'piston.skirt-clearance@4',
    ]);
  });

  it('mains and rods to .010 under, each forced on its own: main 3 and rod 2', () => {
    const [mains, rods] = [family('crank.main-journal'), family('crank.rod-journal')];
    expect([mains.chosen, rods.chosen]).toEqual(['.010 under', '.010 under']);
    expect(mains.set_by.worst / INCH).toBeCloseTo(2.4976, 6);
    expect(rods.set_by.worst / INCH).toBeCloseTo(2.1227, 6);
    expect(mains.forced_by).toContainEqual({ characteristic: 'crank.main-journal', at: '3', status: 'out' });
    expect(rods.forced_by).toContainEqual({ characteristic: 'crank.rod-taper', at: '2', status: 'out' });
    // By housing, wall ± .0001 and clearance: 2.6920 − .1998 − .0030 to 2.6915 − .2002 − .0015.
    expect(mains.drawing[0]!.lower / INCH).toBeCloseTo(2.4892, 6);
    expect(mains.drawing[0]!.upper / INCH).toBeCloseTo(2.4898, 6);
  });

  it('bore 1 to suit piston P1 of 3.5281: 3.5298 to 3.5305, aim at 3.5301', () => {
    const first = family('bore.diameter').finished.find(({ at }) => at === '1')!;
    expect(first.suits).toEqual(['piston-p1']);
    expect([first.lower, first.upper, first.target].map((si) => (si / INCH).toFixed(4))).toEqual([
      '3.5298',
      '3.5305',
      '3.5301',
    ]);
  });

  it('of which a verdict on arrival proves only what is left inside its guard', () => {
    // u of the clearance: dial bore gauge .00015 and micrometer .0001, nothing in common; z for 95 % is 1.645.
    const guard = 1.645 * Math.hypot(0.00015, 0.0001);
    const { proven } = family('bore.diameter').finished.find(({ at }) => at === '1')!;
    expect(proven).toMatchObject({ by: 'Dial bore gauge', possible: true });
    expect(proven!.lower / INCH).toBeCloseTo(3.5281 + 0.0017 + guard, 6);
    expect(proven!.upper / INCH).toBeCloseTo(3.5281 + 0.0024 - guard, 6);
  });

  it('a washer .005 over brings the end float in; the skim of what the face asks for ends at the chamber first', () => {
    expect(sizes.thicknesses).toContainEqual(
      expect.objectContaining({ gap: 'crank.end-float-set', best: '.005 over' }),
    );
    expect(sizes.skim.depth / INCH).toBeCloseTo(0.0052, 4);
    expect(sizes.skim.ends[0]!.by).toBe('chamber');
  });

  it('says the same in words', async () => {
    const { out } = await desk.good('sizes', 'linnet', '--confidence', '99 %');
    expect(out).toContain('.030 over for all 4: they clean up together with a chance of over 99.9 %');
    expect(out).toMatch(/\.020 over would do \(99\.\d %\), but it is no longer to be had\./);
    expect(out).toContain(
      'Against it: One sleeve, 165 EUR, time not said, mends Bore 3 alone, against 610 EUR for all.',
    );
  });

  it(
    'once the parts are back no size is forced any more',
    async () => {
      const back = new CommandDesk();
      await back.good('new', '--demo', 'returned');
      const { out } = await back.good('sizes', '01965c1e-4000-7000-8000-00000022172e');
      back.clear();
      expect(out).toContain('Made to .030 over already.');
      expect(out).not.toContain('What forces it');
      // A bore under the limits of the size is opened up, not bored over.
      expect(out).toContain('Bore 2: out, 3.5298 ±0.0002 in');
      expect(out).toContain('metal is left');
      expect(out).not.toContain('.040 over');
    },
    SLOW,
  );
});

describe('what the sizes of the demo engine add up to', () => {
  it('the piston stands .015 to .025 below the deck by worst case: the block is to be tightened first', async () => {
    const deck = await desk.json<Stack>('stack', 'linnet', 'deck.piston-below-made');
    expect(deck.worst.least / INCH).toBeCloseTo(0.015, 6);
    expect(deck.worst.greatest / INCH).toBeCloseTo(0.025, 6);
    // √(2² + 1² + 1² + 1²) = √7 thou.
    expect(deck.root_sum_square / INCH).toBeCloseTo(Math.sqrt(7) / 1000, 8);
    expect(deck.tighten.characteristic).toBe('deck.block-height');
    expect(deck.outside).toBe(0);
  });

  it(
    'squish, compression ratio, bearing clearance and liner protrusion stack up too',
    async () => {
      const squish = await desk.json<Stack>('stack', 'linnet', 'deck.squish');
      expect([squish.worst.least / INCH, squish.worst.greatest / INCH]).toEqual([
        expect.closeTo(0.063, 6),
        expect.closeTo(0.077, 6),
      ]);
      const ratio = await desk.json<Stack>('stack', 'linnet', 'engine.compression-ratio-made');
      expect(ratio.terms.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
      expect(ratio.tighten.characteristic).toBe('head.chamber');
      const clearance = await desk.json<Stack>(
        'stack',
        'linnet',
        'crank.main-clearance-made',
        '--shape',
        'normal',
      );
      expect(clearance.worst.least / INCH).toBeCloseTo(0.0013, 6);
      expect(clearance.outside).toBeLessThan(0.001);
      await desk.good('new', '--demo', 'castelvar');
      const liner = await desk.json<Stack>('stack', 'castelvar', 'liner.protrusion-made');
      expect([liner.worst.least * 1000, liner.worst.greatest * 1000]).toEqual([
        expect.closeTo(0.035, 6),
        expect.closeTo(0.075, 6),
      ]);
    },
    SLOW,
  );

  it('as measured the readings come in with their shared errors, and wear judges', async () => {
    const { out } = await desk.good('stack', 'linnet', 'crank.main-clearance', '--measured');
    expect(out).toContain('Main bearing clearance 3/front/90, as measured');
    expect(out).toMatch(/Limits for wear 0\.0015 to 0\.0040 in: outside in over 99\.\d %/);
  });

  it('says what is wrong with what was asked', async () => {
    for (const [args, code] of [
      [['stack', 'linnet', 'head.flatness'], 'stack/no-relation'],
      [['stack', 'linnet', 'crank.end-float-set'], 'stack/lacking'],
      [['stack', 'linnet', 'deck.squish', '--shape', 'round'], 'stack/shape'],
      [['stack', 'linnet', 'deck.squish', '--trials', '3'], 'stack/not-whole'],
      [['sizes', 'linnet', '--confidence', '2'], 'sizes/confidence'],
      [['sizes', 'linnet', '--confidence', 'high'], 'sizes/not-a-share'],
      [['sizes', 'linnet', '--stock', '3'], 'unit/missing'],
    ] as const)
      expect(await desk.refused(...args)).toContain(code);
  });

  it('the rock of exhaust 3, .014 at 1.0 above a guide of 2.25, is a clearance of .0074 by the calculator as on the sheet', async () => {
    const { out } = await desk.good(
      'calc',
      'guide-rock',
      'rock=0.014in',
      'height=1.0in',
      'guide_length=2.25in',
    );
    // .014 · 2.25/4.25 = .0074118 in = .18826 mm.
    expect(out).toMatch(/0\.0074|0\.188|0\.0001882/);
    const why = await desk.good('why', 'linnet', 'valve.stem-clearance-exhaust@6');
    expect(why.out).toMatch(/0\.0074/);
  });
});
