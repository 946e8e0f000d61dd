import { CATALOGUE, inUnit } from '@fettle/core';
import { expect, it } from 'vitest';
import { assessment } from '../assess/assessment.ts';
import { asFittedNow } from '../assess/selection.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { cardBlock, faceBlock, mapBlock, ringLines, springBlock, stripWords } from '../words/maps.ts';
import { allMaps } from './all-maps.ts';
import { jobCards } from './job-cards.ts';
import { jobMaps } from './job-maps.ts';
import { facePicture, springPicture } from './map-pictures.ts';

const eight = ['1', '2', '3', '4', '5', '6', '7', '8'];
const sheetOf = (cylinders: readonly string[]) => ({
  axes: {
    cylinder: [...cylinders],
    axis: ['thrust', 'axial'],
    height: ['top', 'bottom'],
    point: ['1', '2', '3'],
  },
  positions: [{ id: 'block', name: 'Block' }],
  characteristics: [
    // The axes in another order than they are drawn: which goes where is told by their names.
    inches('bore', {
      position: 'block',
      places: ['cylinder', 'axis', 'height'],
      limits: { new: { lower: '3.5000 in', upper: '3.5010 in' } },
    }),
    inches('groove', {
      position: 'block',
      places: ['point'],
      reduce: { by: 'worst', over: ['point'] },
      limits: { new: { upper: '0.0010 in' } },
    }),
  ],
});
const drawn = (bench: Bench) => {
  const { judgements } = assessment(bench.book(), asFittedNow(bench.book()), CATALOGUE);
  return { maps: jobMaps(bench.book(), judgements), cards: jobCards(bench.book(), judgements) };
};

const measured = (cylinders: readonly string[]): Bench => {
  const bench = new Bench(sheetOf(cylinders));
  bench.part('block', 'block');
  const read = (characteristic: string, at: string, value: string) =>
    bench.read(characteristic, { value, instrument: 'leaves' } as never, { at });
  read('bore', '1/thrust/top', '3.5045 in');
  read('bore', '1/axial/top', '3.5025 in');
  read('bore', '1/thrust/bottom', '3.5015 in');
  read('groove', '1', '0.0010 in');
  read('groove', '2', '0.0020 in');
  read('groove', '3', '0.0030 in');
  return bench;
};

it('a bore unrolled has its heights down and its directions across, whatever their order on the sheet', () => {
  const [map] = drawn(measured(eight)).maps;
  expect(map).toMatchObject({ strip: 'cylinder', row: 'height', column: 'axis', measured: 3, places: 32 });
  expect(map!.strips).toHaveLength(8);
  expect(map!.strips[0]!.cells.flat().map(({ operand }) => operand !== undefined)).toEqual([
    true,
    true,
    true,
    false,
  ]);
  expect(map!.strips[1]!.cells.flat().every(({ operand }) => operand === undefined)).toBe(true);
});

it('names the place farthest from new beside the one that decides, where they are two', () => {
  const sheet = {
    ...sheetOf(['1']),
    characteristics: [
      inches('pin', {
        position: 'block',
        places: ['height', 'axis'],
        reduce: { by: 'worst', over: ['height', 'axis'] },
        limits: { new: { lower: '1.0000 in', upper: '1.0100 in', target: '1.0080 in' } },
      }),
    ],
  };
  const bench = new Bench(sheet);
  bench.part('block', 'block');
  const read = (at: string, value: string) =>
    bench.read('pin', { value, instrument: 'leaves' } as never, { at });
  // .0070 under what is meant, .0010 within a limit; .0015 over it, .0005 within.
  read('top/thrust', '1.0010 in');
  read('bottom/axial', '1.0095 in');
  const [map] = drawn(bench).maps;
  const cells = map!.strips[0]!.cells.flat();
  expect(cells.filter(({ farthest }) => farthest).map(({ place }) => place)).toEqual([
    { height: 'top', axis: 'thrust' },
  ]);
  expect(cells.filter(({ worst }) => worst).map(({ place }) => place)).toEqual([
    { height: 'bottom', axis: 'axial' },
  ]);
  expect(stripWords(map!, map!.strips[0]!)).toContain(
    'farthest from new at top, thrust, -0.0070; decided at bottom, axial, +0.0015',
  );
});

it('taper and out of round are differences of sizes and name their two places', () => {
  const [map] = drawn(measured(['1'])).maps;
  const { taper, outOfRound } = map!.strips[0]!;
  // 3.5045 - 3.5015 along the thrust side; 3.5045 - 3.5025 at the top.
  expect(inUnit(taper!.value, 'in')).toBeCloseTo(0.003, 9);
  expect(inUnit(outOfRound!.value, 'in')).toBeCloseTo(0.002, 9);
  expect(stripWords(map!, map!.strips[0]!)).toBe(
    'taper 0.0030 in (top less bottom, thrust); out of round 0.0020 in (thrust less axial, top)',
  );
  // 3.5045 less the middle of 3.5000 and 3.5010.
  expect(inUnit(map!.farthest!.off!, 'in')).toBeCloseTo(0.004, 9);
  expect(mapBlock(map!).table!.rows[1]!.at(-1)).toBe('[ ]');
  expect(mapBlock(map!).lines.join(' ')).toContain('cylinder 1, thrust, top');
  expect(mapBlock(map!).notes.join(' ')).toContain('three lobes');
});

it('what one height alone was read at has no taper', () => {
  const bench = new Bench(sheetOf(['1']));
  bench.part('block', 'block');
  bench.read('bore', { value: '3.5045 in', instrument: 'leaves' } as never, { at: '1/thrust/top' });
  const [map] = drawn(bench).maps;
  expect(map!.strips[0]!.taper).toBeUndefined();
  expect(map!.strips[0]!.outOfRound).toBeUndefined();
});

it('a groove leaks as its mean cube', () => {
  const { cards } = drawn(measured(['1']));
  const [column] = cards.find(({ axis }) => axis === 'point')!.columns;
  expect(inUnit(column!.mean!, 'in')).toBeCloseTo(0.002, 9);
  // (1 + 8 + 27)/3 = 12, and the cube root of 12 is 2.289428.
  expect(inUnit(column!.meanCube!, 'in')).toBeCloseTo(0.002289428, 8);
  expect(cardBlock(cards.find(({ axis }) => axis === 'point')!).lines[0]).toContain('worst at point 3');
});

const SPOTS = {
  '1': ['0 in', '0 in'],
  '2': ['4 in', '0 in'],
  '3': ['0 in', '3 in'],
  '4': ['4 in', '3 in'],
  '5': ['2 in', '1.5 in'],
};
/** Two heads of a V, each with its own face. */
const banks = ['left', 'right'];
const faced = (): Bench =>
  new Bench({
    axes: { bank: banks, spot: Object.keys(SPOTS) },
    spots: { spot: SPOTS },
    positions: [{ id: 'head-{bank}', name: 'Head {bank}', places: ['bank'] }],
    characteristics: [
      inches('height', {
        name: 'Head face',
        position: 'head-{bank}',
        places: ['bank', 'spot'],
        with: 'depth micrometer',
      }),
      inches('flat', {
        name: 'Head flatness',
        position: 'head-{bank}',
        places: ['bank'],
        limits: { new: { upper: '0.0040 in' } },
        relation: {
          calculator: {
            name: 'plane-form',
            inputs: { points: { of: 'height', over: 'spot' } },
            output: 'flatness',
          },
        },
      }),
    ],
  });
const all = (bench: Bench) => {
  const book = bench.book();
  return allMaps(book, assessment(book, asFittedNow(book), CATALOGUE).judgements, CATALOGUE);
};

it('each head of a V has its face; the one probed is judged, the other says what probing would decide', () => {
  const bench = faced();
  for (const bank of banks) bench.part(bank, `head-${bank}`);
  for (const [i, text] of ['0', '0', '0', '0', '-0.0060'].entries())
    bench.read('height', `${text} in`, { at: `left/${i + 1}`, instrument: 'depth' });
  const { faces, maps, cards } = all(bench);
  expect(faces.map(({ place }) => place)).toEqual([{ bank: 'left' }, { bank: 'right' }]);
  // Neither unrolled nor on a card as well.
  expect([...maps, ...cards]).toHaveLength(1);
  expect(cards.flatMap(({ columns }) => columns.map(({ characteristic: { id } }) => id))).toEqual(['flat']);
  const [left, right] = faces;
  expect(left!.spots.map(({ holds }) => holds ?? '').filter((one) => one === 'low')).toHaveLength(1);
  expect(left!.spots.at(-1)).toMatchObject({ value: '5', above: 0, holds: 'low' });
  expect(inUnit(left!.zone!.flatness, 'in')).toBeCloseTo(0.006, 9);
  expect(faceBlock(left!).lines.join(' ')).toMatch(/Flatness 0\.0060 in: .*Head flatness: 0\.0060 .*: OUT\./);
  // U .0004, half of its variance each reading's own: at most ±.0004 where two spots hold the zone, so 1.645 × .0002 off.
  expect(faceBlock(right!).lines.join(' ')).toContain(
    'known to ±0.0004 in at most: a flatness of 0.0043 in or more would then be out, one of 0.0037 in or less in',
  );
  const picture = facePicture(left!, ({ kind, unit }) => (kind === 'seen' ? undefined : unit));
  expect(picture.spots.map(({ text }) => text)).toEqual(['0.0060', '0.0060', '0.0060', '0.0060', '0.0000']);
  expect(picture.steps).toHaveLength(5);
});

it('a single cylinder has one strip, and what it has one of is on no map', () => {
  const { maps, cards } = all(measured(['1']));
  expect(maps.map(({ strips }) => strips.length)).toEqual([1]);
  expect(cards.map(({ axis }) => axis)).toEqual(['point']);
  const bench = new Bench({ axes: {}, characteristics: [inches('float')] });
  expect(all(bench)).toEqual({ maps: [], faces: [], springs: [], cards: [] });
});

it('a spring that passes by its length and fails by its load says so', () => {
  const spring = (id: string, length: string, more: Readonly<Record<string, unknown>>) => ({
    ...inches(id, { position: 'spring', spring_length: length, ...more }),
  });
  const force = { kind: 'force', unit: 'lbf', decimals: 2 };
  const bench = new Bench({
    axes: {},
    positions: [{ id: 'spring', name: 'Relief spring' }],
    characteristics: [
      spring('free', 'free', { limits: { new: { lower: '2.362 in', upper: '2.402 in' } } }),
      spring('short', '1.400 in', force),
      spring('load', '1.560 in', { ...force, limits: { new: { lower: '8.44 lbf', upper: '9.24 lbf' } } }),
    ],
  });
  bench.part('spring', 'spring');
  bench.read('free', '2.395 in', { instrument: 'mic' });
  bench.read('load', '7.88 lbf', { instrument: 'tester' });
  const [found] = all(bench).springs;
  expect(found!.loads.map(({ characteristic: { id } }) => id)).toEqual(['load', 'short']);
  const { lines, notes } = springBlock(found!);
  expect(lines.join(' ')).toMatch(/free: 2\.3620 to 2\.4020 in; 2\.3950, IN\..*load: .*; 7\.88, OUT\./);
  expect(notes[0]).toContain('By its free length alone it would pass');
  const picture = springPicture(found!, ({ kind, unit }) => (kind === 'seen' ? undefined : unit));
  expect(picture.wanted).toMatchObject([{ at: 1.56 }]);
  expect(picture.read[0]!.load).toBeCloseTo(7.88, 9);
  // The drawing's line rises from the middle of its free lengths.
  expect(picture.free).toBeCloseTo(2.382, 9);
});

it('depths round a groove say what they go into', () => {
  const bench = new Bench({
    axes: { point: ['1', '2'] },
    positions: [
      { id: 'cover', name: 'Cover' },
      { id: 'body', name: 'Body' },
    ],
    characteristics: [
      inches('groove', { position: 'cover', places: ['point'] }),
      inches('gap', { position: 'body' }),
      inches('end', {
        name: 'End clearance',
        places: ['point'],
        reduce: { by: 'worst', over: ['point'] },
        limits: { new: { upper: '0.0060 in' } },
        relation: {
          linear: {
            terms: [
              { factor: 1, of: 'gap' },
              { factor: 1, of: 'groove' },
            ],
          },
        },
      }),
    ],
  });
  bench.part('cover', 'cover');
  bench.part('body', 'body');
  bench.read('gap', '0.0035 in', { instrument: 'depth' });
  for (const [at, value] of [
    ['1', '0.0035 in'],
    ['2', '0.0027 in'],
  ])
    bench.read('groove', value!, { at: at!, instrument: 'depth' });
  const column = all(bench).cards[0]!.columns.find(({ characteristic: { id } }) => id === 'groove')!;
  expect(ringLines(column)[0]).toMatch(/^It goes into End clearance: 0\.0070 ±0\.\d+ in at point 1, OUT\./);
});

it('a journal read in four directions says how oval it is and where it is longest', () => {
  const bench = new Bench({
    axes: { main: ['1'], end: ['front'], turn: ['0', '45', '90', '135'] },
    positions: [{ id: 'crank', name: 'Crank' }],
    characteristics: [inches('journal', { position: 'crank', places: ['main', 'end', 'turn'] })],
  });
  bench.part('crank', 'crank');
  for (const [turn, value] of Object.entries({ 0: '2.4992', 45: '2.4990', 90: '2.4980', 135: '2.4982' }))
    bench.read('journal', `${value} in`, { at: `1/front/${turn}`, instrument: 'mic' });
  const [map] = all(bench).maps;
  // a = (2.4992 − 2.4980)/2 = .0006, b = (2.4990 − 2.4982)/2 = .0004: 2√(a² + b²) = .00144, ½ atan2(b, a) = 16.8°.
  expect(stripWords(map!, map!.strips[0]!)).toContain(
    'oval by 0.0014 in by least squares, longest at 17° (front), 0.0000 in of a diameter left over',
  );
  expect(mapBlock(map!).notes.join(' ')).toContain('Diameters cannot see three lobes');
});
