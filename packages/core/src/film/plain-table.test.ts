import { describe, expect, it } from 'vitest';
import { plainBearingAt, plainFilm } from './plain-film.ts';
import { plainTable } from './plain-table.ts';

/** Khonsari and Booser, finite full bearings: L/D, ε, S, (r/c) f, leakage in R c ω L/2. */
const PRINTED = [
  [1, 0.6, 0.1209, 3.2167, 0.9368],
  [1, 0.8, 0.0445, 1.7017, 1.2377],
  [1, 0.9, 0.0188, 1.0511, 1.3864],
  [0.5, 0.4, 0.7855, 17.0961, 0.7507],
  [0.5, 0.8, 0.0916, 3.2334, 1.5041],
  [0.25, 0.2, 7.5796, 152.8034, 0.3936],
  [0.25, 0.6, 1.0778, 26.8159, 1.1809],
  [0.25, 0.9, 0.0736, 3.4979, 1.7734],
] as const;

describe('the table of a plain bearing', () => {
  it('finds the eccentricity, friction and leakage that the published design tables print', () => {
    for (const [long, e, s, friction, leakage] of PRINTED) {
      const found = plainTable(long).for(s);
      const where = `at L/D ${long}, ε ${e}`;
      expect(Math.abs(found.eccentricity - e), `ε ${where}`).toBeLessThan(0.005);
      const drag = friction / s / (2 * Math.PI ** 2);
      expect(Math.abs(found.drag / drag - 1), `friction ${where}`).toBeLessThan(0.015);
      expect(Math.abs((2 * found.side) / leakage - 1), `leakage ${where}`).toBeLessThan(0.012);
    }
  });

  it('lies on the solved film between its rows', () => {
    for (const long of [0.1, 0.25, 0.6, 1.5])
      for (const e of [0.03, 0.25, 0.55, 0.75, 0.88, 0.95, 0.975]) {
        const solved = plainBearingAt(plainFilm(long), e)!;
        const found = plainTable(long).for(solved.sommerfeld);
        expect(Math.abs(found.eccentricity - e) / (1 - e), `ε ${e} at L/D ${long}`).toBeLessThan(0.01);
        expect(found.drag / (solved.friction / solved.sommerfeld / (2 * Math.PI ** 2))).toBeCloseTo(1, 2);
        expect(found.side / ((solved.flow * solved.sideRatio) / (2 * Math.PI))).toBeCloseTo(1, 2);
      }
  });

  it('is the film of Petroff when next to nothing is carried, and draws nothing', () => {
    const { drag, side, eccentricity } = plainTable(0.5).for(1e5);
    expect(eccentricity).toBeLessThan(1e-3);
    expect(drag).toBeCloseTo(1, 3);
    expect(side).toBeLessThan(1e-3);
    expect(plainTable(0.5).for(Number.POSITIVE_INFINITY)).toMatchObject({
      eccentricity: 0,
      drag: 1,
      side: 0,
    });
  });

  it('is the short bearing of Ocvirk when short: its side flow is ε c U L, its load that of the closed formula', () => {
    for (const e of [0.2, 0.5, 0.7]) {
      // Ocvirk: 2 π ε in R c N L.
      expect(Math.abs(plainTable(0.05).at(e).side / e - 1)).toBeLessThan(0.02);
      const q = 1 - e * e;
      const s = (q * q) / (Math.PI * e * Math.sqrt(Math.PI ** 2 * q + 16 * e * e)) / 0.05 ** 2;
      expect(Math.abs(plainTable(0.05).for(s).eccentricity - e)).toBeLessThan(0.01);
    }
  });

  it('says where it goes on beyond what was solved, and never lets the surfaces meet', () => {
    const far = plainTable(0.5).for(1e-7);
    expect(far.within).toBe(false);
    expect(far.eccentricity).toBeGreaterThan(0.985);
    expect(far.eccentricity).toBeLessThan(1);
    expect(plainTable(0.5).for(0.3).within).toBe(true);
  });
});
