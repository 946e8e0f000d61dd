import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainBearingAt, plainFilm } from '../film/plain-film.ts';
import { shortBearing, shortBearingEccentricity } from '../oil/short-bearing.ts';
import { metre, metrePerSecond, newton, pascalSecond, second } from '../units/si.ts';
import { type SqueezeVelocity, squeezeVelocity } from './mobility.ts';
import { journalOrbit, type OrbitCase, squeezeTime } from './orbit.ts';

const velocity = (ex: number, ey: number, fx: number, fy: number): SqueezeVelocity => {
  const out = { x: 0, y: 0 };
  squeezeVelocity(ex, ey, fx, fy, out);
  return out;
};

/** The film's force by adding up its pressure, for a velocity: nothing closed, nothing substituted. */
function forceByQuadrature(e: number, vr: number, vt: number): [number, number] {
  const chi = Math.atan2(vt, vr);
  const v = Math.hypot(vr, vt);
  const n = 20000;
  let [r, t] = [0, 0];
  for (let k = 0; k < n; k++) {
    const psi = chi - Math.PI / 2 + ((k + 0.5) / n) * Math.PI;
    const p = (v * Math.cos(psi - chi)) / (1 - e * Math.cos(psi)) ** 3;
    r += (p * Math.cos(psi) * Math.PI) / n;
    t += (p * Math.sin(psi) * Math.PI) / n;
  }
  return [r, t];
}

const BEARING = {
  radius: metre(0.027),
  land: metre(0.012),
  lands: 1,
  clearance: metre(25e-6),
  viscosity: pascalSecond(0.008),
  // What these are held to are the closed formulas of the short bearing.
  short: true,
} as const;
const SPEED = 200;
const STEPS = 360;

const turning = (at: number) => new Float64Array(STEPS).fill(at);
const steady = (size: number): OrbitCase['load'] => ({
  x: new Float64Array(STEPS).fill(size),
  y: new Float64Array(STEPS),
});
const rotating = (size: number): OrbitCase['load'] => ({
  x: Float64Array.from({ length: STEPS }, (_, i) => size * Math.cos((2 * Math.PI * i) / STEPS)),
  y: Float64Array.from({ length: STEPS }, (_, i) => size * Math.sin((2 * Math.PI * i) / STEPS)),
});
const steadyEccentricity = (load: number, speed: number): number =>
  shortBearingEccentricity(
    newton(load),
    BEARING.clearance,
    BEARING.viscosity,
    metrePerSecond(speed * BEARING.radius),
    BEARING.land,
  );

describe('the mobility of a short bearing', () => {
  it('moves the journal so that the pressure of its film adds up to the load', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.97, noNaN: true }),
        fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
        (e, angle) => {
          const [fx, fy] = [3 * Math.cos(angle), 3 * Math.sin(angle)];
          const v = velocity(e, 0, fx, fy);
          const [r, t] = forceByQuadrature(e, v.x, v.y);
          expect(r).toBeCloseTo(fx, 4);
          expect(t).toBeCloseTo(fy, 4);
        },
      ),
      { numRuns: 60, examples: [[1.6e-162, 0]] },
    );
  });

  it('is 2/π of the load for a concentric journal, whichever way it points', () => {
    expect(velocity(0, 0, 1, 0).x).toBeCloseTo(2 / Math.PI, 12);
    const aslant = velocity(0, 0, 0.6, 0.8);
    expect([aslant.x, aslant.y]).toEqual([
      expect.closeTo(1.2 / Math.PI, 12),
      expect.closeTo(1.6 / Math.PI, 12),
    ]);
  });

  it('turns with what it is given, and grows with the load', () => {
    const one = velocity(0.5, 0.2, 2, 1);
    const turned = velocity(-0.2, 0.5, -1, 2);
    expect([turned.x, turned.y]).toEqual([expect.closeTo(-one.y, 12), expect.closeTo(one.x, 12)]);
    expect(velocity(0.5, 0.2, 6, 3).x).toBeCloseTo(3 * one.x, 10);
  });

  it('holds the journal of a steady short bearing where Ocvirk’s solution has it', () => {
    for (const e of [0.05, 0.3, 0.6, 0.9, 0.98]) {
      const { attitudeAngle } = shortBearing(0.25, e);
      // The load lies so far from the line of centres; the journal stands still when the squeeze undoes the turning.
      const load = ((e / (1 - e * e) ** 2) * Math.sqrt(16 * e * e + Math.PI ** 2 * (1 - e * e))) / 4;
      const v = velocity(e, 0, load * Math.cos(-attitudeAngle), load * Math.sin(-attitudeAngle));
      expect(v.x).toBeCloseTo(0, 8);
      // W = μ ω R L³/(4 c²) g(ε) with ω = 1, and the mean turning is half of ω.
      expect(v.y).toBeCloseTo(-e / 2, 8);
    }
  });

  it('asks nothing of a film without a load', () => {
    expect(velocity(0.4, 0.1, 0, 0)).toEqual({ x: 0, y: 0 });
  });
});

describe('the orbit of a journal', () => {
  const period = second((2 * Math.PI) / SPEED);

  it('under a steady load settles at the steady eccentricity and attitude', () => {
    for (const load of [200, 1500, 8000]) {
      const orbit = journalOrbit({ ...BEARING, load: steady(load), meanTurning: turning(SPEED / 2), period });
      expect(orbit.settled).toBe(true);
      const e = steadyEccentricity(load, SPEED);
      expect(Math.hypot(orbit.x[0]!, orbit.y[0]!)).toBeCloseTo(e, 3);
      expect(Math.atan2(orbit.y[0]!, orbit.x[0]!)).toBeCloseTo(shortBearing(1, e).attitudeAngle, 2);
      expect(orbit.leastFilm).toBeCloseTo(BEARING.clearance * (1 - e), 8);
    }
  });

  it('under a load that turns with the shaft runs as far out as under a steady one', () => {
    const orbit = journalOrbit({ ...BEARING, load: rotating(1500), meanTurning: turning(SPEED / 2), period });
    const e = steadyEccentricity(1500, SPEED);
    for (const i of [0, 90, 200]) expect(Math.hypot(orbit.x[i]!, orbit.y[i]!)).toBeCloseTo(e, 3);
  });

  it('under a load that turns at twice the speed of the shaft runs as a shaft of three times the speed', () => {
    // Seen from the load the film turns at ω/2 − Ω; with Ω = 2 ω that is −3/2 ω, where a steady load has ω/2.
    const shaft = SPEED / 2;
    const orbit = journalOrbit({
      ...BEARING,
      load: rotating(1500),
      meanTurning: turning(shaft / 2),
      period,
    });
    expect(Math.hypot(orbit.x[0]!, orbit.y[0]!)).toBeCloseTo(steadyEccentricity(1500, 3 * shaft), 3);
  });

  it('under a load that turns with the film is squeezed out as though nothing turned', () => {
    const load = newton(1500);
    const time = squeezeTime(0.9, BEARING, load);
    const turns = Math.ceil(time / period) + 1;
    const orbit = journalOrbit({
      ...BEARING,
      load: rotating(load),
      meanTurning: turning(SPEED),
      period,
      mostPeriods: turns,
    });
    expect(orbit.leastFilm).toBeLessThan(0.1 * BEARING.clearance);
  });

  it('squeezes from concentric to ε in the time of the closed formula', () => {
    const load = newton(1500);
    for (const reached of [0.3, 0.7, 0.95]) {
      const time = squeezeTime(reached, BEARING, load);
      const half = journalOrbit({
        ...BEARING,
        load: steady(load),
        meanTurning: turning(0),
        period: second(2 * time),
        mostPeriods: 1,
      });
      expect(Math.hypot(half.x[STEPS / 2]!, half.y[STEPS / 2]!)).toBeCloseTo(reached, 4);
      expect(half.settled).toBe(false);
    }
  });

  it('comes to the same path whatever it starts from', () => {
    const load = { x: rotating(900).x.map((x) => x + 600), y: rotating(900).y };
    const orbits = (
      [
        [0, 0],
        [0.9, 0],
        [-0.5, 0.7],
      ] as const
    ).map((start) => journalOrbit({ ...BEARING, load, meanTurning: turning(SPEED / 2), period, start }));
    for (const orbit of orbits) {
      expect(orbit.settled).toBe(true);
      expect(orbit.leastFilm / BEARING.clearance).toBeCloseTo(orbits[0]!.leastFilm / BEARING.clearance, 3);
    }
  });

  it('keeps inside its clearance under a load far too great', () => {
    const orbit = journalOrbit({ ...BEARING, load: rotating(1e9), meanTurning: turning(SPEED / 2), period });
    expect(orbit.leastFilm).toBeGreaterThan(0);
    for (let i = 0; i < STEPS; i++) expect(Math.hypot(orbit.x[i]!, orbit.y[i]!)).toBeLessThan(1);
  });

  it('of a land of finite length settles under a steady load where the design tables have it', () => {
    for (const [land, e] of [
      [0.0135, 0.6],
      [0.027, 0.8],
      [0.054, 0.7],
    ] as const) {
      const { short: _, ...bearing } = { ...BEARING, land: metre(land) };
      const long = land / (2 * bearing.radius);
      const { sommerfeld } = plainBearingAt(plainFilm(long), e)!;
      const { radius, clearance, viscosity } = bearing;
      const n = SPEED / (2 * Math.PI);
      const load = ((radius / clearance) ** 2 * viscosity * n * 2 * radius * land) / sommerfeld;
      const orbit = journalOrbit({ ...bearing, load: steady(load), meanTurning: turning(SPEED / 2), period });
      expect(orbit.settled).toBe(true);
      expect(Math.abs(Math.hypot(orbit.x[0]!, orbit.y[0]!) - e)).toBeLessThan(0.01);
    }
  });

  it('of a land of finite length comes nearer to touching than the short bearing promises', () => {
    const { short: _, ...bearing } = BEARING;
    const load = { x: rotating(900).x.map((x) => x + 600), y: rotating(900).y };
    const at = { load, meanTurning: turning(SPEED / 2), period };
    const [finite, short] = [journalOrbit({ ...bearing, ...at }), journalOrbit({ ...BEARING, ...at })];
    expect(finite.settled).toBe(true);
    expect(finite.leastFilm).toBeLessThan(short.leastFilm);
    expect(finite.leastFilm).toBeGreaterThan(0.7 * short.leastFilm);
  });
});
