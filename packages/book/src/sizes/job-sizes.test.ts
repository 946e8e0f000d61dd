import { CATALOGUE, inUnit } from '@fettle/core';
import { expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches, lessOf } from '../testing/tiny-sheet.ts';
import { sizeBlocks } from '../words/sizes.ts';
import { jobSizes, type SizesAsked } from './job-sizes.ts';

const SIZES = [
  { name: '.020 over', shift: '0.020 in', obtainable: false },
  { name: '.030 over', shift: '0.030 in', obtainable: true },
  { name: '.040 over', shift: '0.040 in', obtainable: true },
];

/** Two bores, each read top and bottom, and pistons; a gap set by washers; a head with chamber and ratio. */
const ENGINE = {
  axes: { cylinder: ['1', '2'], height: ['top', 'bottom'] },
  positions: [
    { id: 'block', name: 'Block' },
    { id: 'head', name: 'Head' },
    { id: 'crank', name: 'Crank' },
    { id: 'piston-{cylinder}', name: 'Piston', places: ['cylinder'] },
  ],
  characteristics: [
    inches('bore', {
      position: 'block',
      places: ['cylinder', 'height'],
      reduce: { by: 'worst', over: ['height'] },
      limits: {
        new: { lower: '3.5000 in', upper: '3.5010 in' },
        wear: { lower: '3.5000 in', upper: '3.5080 in' },
      },
      sizes: SIZES,
      decimals: 4,
    }),
    inches('piston', { position: 'piston-{cylinder}', places: ['cylinder'] }),
    inches('skirt', {
      position: 'piston-{cylinder}',
      mates: ['block'],
      places: ['cylinder', 'height'],
      reduce: { by: 'worst', over: ['height'] },
      relation: lessOf('bore', 'piston'),
      limits: { new: { lower: '0.0017 in', upper: '0.0024 in', target: '0.0020 in' } },
      decimals: 4,
    }),
    inches('float', { position: 'crank', limits: { wear: { upper: '0.012 in' } } }),
    inches('washer', {
      position: 'block',
      sizes: [
        { name: '.0025 over', shift: '0.0025 in', obtainable: true },
        { name: '.005 over', shift: '0.005 in', obtainable: true },
        { name: '.0055 over', shift: '0.0055 in', obtainable: false },
      ],
    }),
    inches('float-set', {
      position: 'crank',
      relation: lessOf('float', 'washer'),
      limits: { new: { lower: '0.004 in', upper: '0.008 in' } },
      decimals: 4,
    }),
    inches('flatness', { position: 'head', limits: { new: { upper: '0.004 in' } }, decimals: 4 }),
    inches('skim taken', { id: 'skim-taken', position: 'head', limits: { new: { upper: '0.030 in' } } }),
    {
      ...inches('chamber', { position: 'head' }),
      kind: 'volume',
      unit: 'cm3',
      limits: { new: { lower: '97 cm3', upper: '99 cm3' } },
      no_limits: undefined,
    },
    {
      ...inches('ratio', {}),
      kind: 'ratio',
      unit: undefined,
      no_limits: undefined,
      limits: { new: { lower: '6.6', upper: '7.0' } },
      relation: {
        calculator: {
          name: 'cylinder',
          inputs: {
            bore: { is: '3.500 in' },
            stroke: { is: '4.470 in' },
            cylinders: { is: '1' },
            chamber_volume: { of: 'chamber' },
            gasket_thickness: { is: '0.050 in' },
            gasket_bore: { is: '3.625 in' },
            deck_clearance: { is: '0.020 in' },
            dish_volume: { is: '12 cm3' },
          },
          output: 'compression_ratio',
        },
      },
    },
  ].map((one) => Object.fromEntries(Object.entries(one).filter(([, value]) => value !== undefined))),
};

function engine(top1 = '3.5055', top2 = '3.5077'): Bench {
  const bench = new Bench(ENGINE);
  bench.part('block', 'block');
  bench.read('bore', `${top1} in`, { at: '1/top', instrument: 'tele' });
  bench.read('bore', '3.5012 in', { at: '1/bottom', instrument: 'tele' });
  bench.read('bore', `${top2} in`, { at: '2/top', instrument: 'tele' });
  bench.read('bore', '3.5013 in', { at: '2/bottom', instrument: 'tele' });
  return bench;
}

const found = (bench: Bench, asked: SizesAsked = {}) => {
  const sizes = jobSizes(bench.book(), bench.assessed(), CATALOGUE, asked);
  if (!sizes.ok) throw new Error(sizes.issues[0]!.message);
  return sizes.value;
};
const inch = (si: number) => inUnit(si, 'in');

it('the worst bore sets a common oversize; .020 would do but is not to be had, so .030', () => {
  const [bores] = found(engine()).families;
  const { common } = bores!;
  expect(common.setBy?.worstAt).toEqual({ cylinder: '2', height: 'top' });
  // All wear on one side: 3.5000 + 2 · .0077 + .002 + .0025 = 3.5199.
  expect(inch(common.setBy!.atWorst)).toBeCloseTo(3.5199, 9);
  expect(common.chosen?.size.name).toBe('.030 over');
  expect(common.passedOver?.size.name).toBe('.020 over');
  expect(common.forces.map(({ characteristic }) => characteristic.id)).toEqual(['bore']);
});

it('the chance is what the wear on one side and the cut leave, by hand where readings are as good as exact', () => {
  // Let the cut be true and nothing be honed: D_f = D₀ + 2 s w. With w = .0120 the size .020 asks s ≤ .8333, of ½ to 1: two thirds.
  const bench = engine('3.5010', '3.5120');
  const { common } = found(bench, { eccentricity: 0, stock: 0 }).families[0]!;
  expect(Math.abs(common.options[0]!.chance - 2 / 3)).toBeLessThan(0.02);
  expect(common.options[1]!.chance).toBe(1);
});

it('a size that must be surer may be a larger one', () => {
  const bench = engine('3.5010', '3.5160');
  // s ≤ .9375 of ½ to 1 cleans up at .030: seven eighths.
  const least = { eccentricity: 0, stock: 0 };
  expect(found(bench, { ...least, confidence: 0.8 }).families[0]!.common.chosen?.size.name).toBe('.030 over');
  expect(found(bench, { ...least, confidence: 0.95 }).families[0]!.common.chosen?.size.name).toBe(
    '.040 over',
  );
});

it('a bore under its limits has metal left and forces no larger size', () => {
  const bench = engine('3.4980', '3.5030');
  const { common } = found(bench).families[0]!;
  expect(common.forces).toEqual([]);
  expect(common.short.map(({ place, status }) => [place, status])).toEqual([[{ cylinder: '1' }, 'out']]);
});

it('what is in forces no size, and what is not read is said', () => {
  const { common } = found(engine('3.5020', '3.5030')).families[0]!;
  expect(common.forces).toEqual([]);
  const unread = new Bench(ENGINE);
  unread.part('block', 'block');
  expect(found(unread).families[0]!.common.unread).toHaveLength(2);
  expect(sizeBlocks(unread.book(), found(unread))[0]!.lines).toEqual([
    'Not measured, so no size can be chosen.',
  ]);
});

it('one sleeve stands against all bores: what it leaves, and that no piston fits the other bore everywhere', () => {
  const bench = engine();
  const offer = { way: 'machine' as const, trust: 'quoted' as const, repairs: [], needs: [], excludes: [] };
  bench.desk.write('repair-offered', {
    ...offer,
    offer: 'sleeve',
    name: 'One sleeve',
    price: 165,
    restores: [{ characteristic: 'bore', at: { cylinder: '2' }, judged_by: 'new' }],
  });
  bench.desk.write('repair-offered', {
    ...offer,
    offer: 'rebore',
    name: 'Rebore',
    price: 610,
    lead_time: '3 weeks',
    restores: [{ characteristic: 'bore', size: '.030 over', judged_by: 'new' }],
  });
  const { common } = found(bench).families[0]!;
  expect(common.chosen?.offers.map(({ offer: one, days }) => [one.offer, days])).toEqual([['rebore', 21]]);
  const [sleeve] = common.singles;
  expect(sleeve?.mends.map(({ place }) => place)).toEqual([{ cylinder: '2' }]);
  expect(sleeve?.leaves).toEqual([]);
  expect(sleeve?.allPrice).toBe(330);
  // Bore 1 differs by .0043 from top to bottom, skirt clearance leaves .0007.
  expect(sleeve?.uneven.map(({ feature, range, room }) => [feature.place, inch(range), inch(room)])).toEqual([
    [{ cylinder: '1' }, expect.closeTo(0.0043, 9), expect.closeTo(0.0007, 9)],
  ]);
});

it('a bore is finished to its own piston once that is measured', () => {
  const bench = engine();
  bench.desk.write('part-entered', { part: 'p1', name: 'P1', condition: 'new' });
  bench.read('piston', '3.5281 in', { at: '1', part: 'p1', instrument: 'mic' });
  const [finished] = found(bench).families[0]!.finished;
  // 3.5281 + .0017 to .0024, aim .0020.
  expect(inch(finished!.limits.lower!)).toBeCloseTo(3.5298, 9);
  expect(inch(finished!.limits.upper!)).toBeCloseTo(3.5305, 9);
  expect(inch(finished!.limits.target!)).toBeCloseTo(3.5301, 9);
});

it('of the washers to be had the one proven inside: .0115 less .005 is .0065', () => {
  const bench = engine();
  bench.part('crank', 'crank');
  bench.read('float', '0.0115 in', { instrument: 'dbg' });
  const [washers] = found(bench).thicknesses;
  expect(washers?.best?.name).toBe('.005 over');
  expect(inch(washers!.best!.gap.value)).toBeCloseTo(0.0065, 9);
  expect(washers?.tried.map(({ status }) => status)).toEqual(['out', 'out', 'in', 'in']);
});

it('a skim of what the face asks for takes chamber and budget with it; the least chamber ends it first', () => {
  const bench = engine('3.5020', '3.5030');
  bench.part('head', 'head');
  bench.read('flatness', '0.0045 in', { instrument: 'depth' });
  bench.read('skim-taken', '0.010 in', { instrument: 'depth' });
  const { skim } = found(bench);
  // π/4 · 3.5² in² = 62.07 cm²; .0049 in of it is .7726 cm³.
  expect(skim!.depth / 0.0254).toBeCloseTo(0.0049, 9);
  expect(skim!.after.volume * 1e6).toBeCloseTo(0.7726, 3);
  expect(skim!.now.ratio).toBeCloseTo(6.796, 2);
  expect(skim!.after.ratio).toBeGreaterThan(skim!.now.ratio);
  expect(skim!.ends.map(({ by }) => by)).toEqual(['chamber', 'budget', 'ratio']);
  // 1 cm³ over 62.07 cm² is .1611 mm = .00634 in; .030 less .010.
  expect(inch(skim!.ends[0]!.depth)).toBeCloseTo(0.00634, 5);
  expect(inch(skim!.ends[1]!.depth)).toBeCloseTo(0.02, 6);
});

it('refuses a confidence, a share and a stock that cannot be', () => {
  const bench = engine();
  const code = (asked: SizesAsked) => {
    const sizes = jobSizes(bench.book(), bench.assessed(), CATALOGUE, asked);
    return sizes.ok ? 'ok' : sizes.issues[0]!.code;
  };
  expect(code({ confidence: 1 })).toBe('sizes/confidence');
  expect(code({ oneSided: 0.4 })).toBe('sizes/cutting');
  expect(code({ stock: -1 })).toBe('sizes/cutting');
  expect(code({ skim: { depth: 1 } })).toBe('sizes/skim');
});
