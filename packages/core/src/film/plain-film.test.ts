import { expect, it } from 'vitest';
import { shortBearing } from '../oil/short-bearing.ts';
import { PLAIN_ECCENTRICITY, plainBearingAt, plainBearingFor, plainFilm } from './plain-film.ts';

const DEGREE = 180 / Math.PI;

function at(lengthOverDiameter: number, e: number) {
  const found = plainBearingAt(plainFilm(lengthOverDiameter), e);
  if (!found) throw new Error('no solution');
  return found;
}

/** L/D, ε; S, φ [°], (R/c) f, Q/(rcNL), Qs/Q: converged on 768 × 96 points with extrapolation, by another program. */
const CONVERGED = [
  [1, 0.4, 0.2604, 62.57, 5.786, 3.988, 0.498],
  [1, 0.8, 0.04456, 36.23, 1.702, 4.615, 0.844],
  [0.5, 0.6, 0.31929, 48.05, 8.101, 4.853, 0.73],
  [0.25, 0.6, 1.07792, 46.82, 26.82, 4.986, 0.744],
] as const;

it.each(CONVERGED)(
  'keeps within half a percent of the converged film at L/D %d, ε %d',
  (ld, e, ...wanted) => {
    const b = at(ld, e);
    const got = [b.sommerfeld, b.attitude * DEGREE, b.friction, b.flow, b.sideRatio];
    for (let k = 0; k < wanted.length; k++) {
      const off = Math.abs(got[k]! / wanted[k]! - 1);
      expect(off, `figure ${k}: ${got[k]} for ${wanted[k]}`).toBeLessThan(0.005);
    }
  },
);

it('goes over into the short bearing as its length shrinks', () => {
  for (const e of [0.2, 0.5, 0.7]) {
    const b = at(0.05, e);
    const short = shortBearing(0.05, e);
    expect(b.sommerfeld / short.sommerfeldNumber).toBeGreaterThan(0.995);
    expect(b.sommerfeld / short.sommerfeldNumber).toBeLessThan(1.012);
    expect(b.attitude).toBeCloseTo(short.attitudeAngle, 2);
    expect((b.flow * b.sideRatio) / short.sideFlowVariable).toBeCloseTo(1, 2);
    expect(b.peakAt).toBeCloseTo(short.greatestPressureAt, 2);
  }
});

it('goes over into Petroff’s friction as the journal centres', () => {
  const b = at(0.5, 0.001);
  expect(b.friction / (2 * Math.PI ** 2 * b.sommerfeld)).toBeCloseTo(1, 4);
});

it('finds the eccentricity that a Sommerfeld number belongs to, and says when it lies outside', () => {
  const film = plainFilm(0.4);
  for (const e of [0.01, 0.3, 0.62, 0.9, 0.98]) {
    const s = plainBearingAt(film, e)!.sommerfeld;
    expect(plainBearingFor(film, s)?.eccentricity).toBeCloseTo(e, 6);
  }
  expect(plainBearingFor(film, 1e9)).toBeUndefined();
  expect(plainBearingFor(film, 1e-9)).toBeUndefined();
  expect(PLAIN_ECCENTRICITY.most).toBeGreaterThan(0.95);
});

it('thins as the load grows, all the way', () => {
  const film = plainFilm(0.5);
  let before = Number.POSITIVE_INFINITY;
  for (let e = 0.02; e < 0.985; e += 0.02) {
    const { sommerfeld } = plainBearingAt(film, e)!;
    expect(sommerfeld).toBeLessThan(before);
    before = sommerfeld;
  }
});
