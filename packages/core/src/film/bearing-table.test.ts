import { expect, it } from 'vitest';
import { eccentricAnnulus } from '../oil/bearing-feed.ts';
import { bearingTable, feedCurve, tabledBearing } from './bearing-table.ts';
import { fedBearingFor } from './fed-bearing.ts';
import { monotoneSlopes, onCurve } from './monotone-curve.ts';
import type { BearingShape, Supply } from './supply.ts';

const SHAPES: readonly BearingShape[] = (
  [
    { kind: 'full-groove', width: 0.12 },
    { kind: 'half-groove', width: 0.2, at: Math.PI },
    { kind: 'axial-groove', length: 0.7, arc: 0.3, at: Math.PI },
    { kind: 'two-axial-grooves', length: 0.8, arc: 0.35 },
    { kind: 'hole', diameter: 0.25, at: Math.PI },
  ] satisfies readonly Supply[]
).map((supply, k) => ({ lengthOverDiameter: 0.3 + 0.1 * k, supply }));

const TABLES = SHAPES.map((shape) => bearingTable(shape));

it.each(TABLES.map((table) => [table.shape.supply.kind, table] as const))(
  'says of a bearing with %s what solving it says, between its points too',
  (_, table) => {
    const from = table.logSommerfeld[0]!;
    const to = table.logSommerfeld.at(-1)!;
    for (let k = 0; k < 10; k++) {
      const s = Math.exp(from + (to - from) * ((k + 0.5) / 10));
      const p = 10 ** (-1.3 + 2 * ((k * 0.381) % 1));
      const solved = fedBearingFor(table.shape, s, p)!;
      const tabled = tabledBearing(table, s, p);
      expect(tabled.within).toBe(true);
      expect((1 - tabled.eccentricity) / (1 - solved.eccentricity)).toBeCloseTo(1, 1.2);
      expect(Math.abs(tabled.feedFlow / solved.feedFlow - 1), `feed at S ${s}, p* ${p}`).toBeLessThan(0.03);
      expect(Math.abs(tabled.friction / solved.friction - 1)).toBeLessThan(0.03);
      expect(Math.abs(tabled.attitude - solved.attitude)).toBeLessThan(0.03);
    }
  },
);

it('has a figure for every place, and says which it did not find', () => {
  for (const table of TABLES) {
    expect(table.missing).toEqual([]);
    expect(table.lifted).toBeLessThan(0.001);
    for (const lines of [table.feed, table.logGap, table.logFriction, table.attitude]) {
      expect(lines.length).toBe(table.logSommerfeld.length);
      for (const line of lines)
        expect(line.every(Number.isFinite) && line.length === table.supply.length).toBe(true);
    }
  }
});

it('lets flow rise with pressure at every load, in the table, past its end and under nothing', () => {
  const out = { flow: 0, slope: 0 };
  for (const table of TABLES)
    for (let logS = table.logSommerfeld[0]! - 1; logS < table.logSommerfeld.at(-1)! + 1; logS += 0.37) {
      const curve = feedCurve(table, Math.exp(logS));
      let before = Number.NEGATIVE_INFINITY;
      let falls = 0;
      for (let p = -1; p < 12; p += 0.013) {
        onCurve(curve.supply, curve.feed, curve.slopes, p, out);
        if (!(out.flow > before && out.slope > 0)) falls++;
        before = out.flow;
      }
      expect(falls).toBe(0);
    }
});

it('says when load or pressure leave it', () => {
  const [table] = TABLES;
  const middle = Math.exp(table!.logSommerfeld[6]!);
  expect(tabledBearing(table!, middle, 1).within).toBe(true);
  expect(tabledBearing(table!, middle, 9).within).toBe(false);
  expect(tabledBearing(table!, Math.exp(table!.logSommerfeld[0]! - 0.1), 1).within).toBe(false);
  expect(tabledBearing(table!, Math.exp(table!.logSommerfeld.at(-1)! + 0.1), 1).within).toBe(false);
});

it('ends at high pressure in the formula of the full groove, at the eccentricity it tells', () => {
  const [table] = TABLES;
  const { lengthOverDiameter } = table!.shape;
  const b = tabledBearing(table!, Math.exp(table!.logSommerfeld[5]!), 8);
  const land = lengthOverDiameter * (1 - 0.12);
  const wanted = (Math.PI * 8 * eccentricAnnulus(b.eccentricity)) / (3 * land);
  expect(b.feedFlow / wanted).toBeCloseTo(1, 2);
});

it('goes through JSON and back unchanged', () => {
  for (const table of TABLES) {
    const copy = JSON.parse(JSON.stringify(table)) as typeof table;
    expect(copy).toEqual(table);
    expect(tabledBearing(copy, 0.3, 0.2)).toEqual(tabledBearing(table, 0.3, 0.2));
  }
});

it('draws a cubic through its points that stays between neighbours', () => {
  const x = [0, 1, 2, 5];
  const y = [0, 1, 1, 4];
  const slopes = new Float64Array(4);
  monotoneSlopes(x, y, slopes);
  const out = { flow: 0, slope: 0 };
  x.forEach((at, k) => {
    onCurve(x, y, slopes, at, out);
    expect(out.flow).toBeCloseTo(y[k]!, 12);
  });
  for (let at = 1; at <= 2; at += 0.1) {
    onCurve(x, y, slopes, at, out);
    expect(out.flow).toBeCloseTo(1, 12);
  }
  // Its slope is the slope of what it gives.
  const [low, high] = [
    { flow: 0, slope: 0 },
    { flow: 0, slope: 0 },
  ];
  onCurve(x, y, slopes, 3.1 - 1e-6, low);
  onCurve(x, y, slopes, 3.1 + 1e-6, high);
  onCurve(x, y, slopes, 3.1, out);
  expect((high.flow - low.flow) / 2e-6).toBeCloseTo(out.slope, 6);
});
