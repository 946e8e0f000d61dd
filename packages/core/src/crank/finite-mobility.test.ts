import { describe, expect, it } from 'vitest';
import { plainBearingAt, plainFilm } from '../film/plain-film.ts';
import { finiteMobility } from './finite-mobility.ts';
import { squeezeVelocity } from './mobility.ts';

const velocityOf = (long: number, e: number, angle: number): { x: number; y: number } => {
  const out = { x: 0, y: 0 };
  finiteMobility(long).velocity(e, 0, Math.cos(angle), Math.sin(angle), out);
  return out;
};
const shortVelocity = (e: number, angle: number): { x: number; y: number } => {
  const out = { x: 0, y: 0 };
  squeezeVelocity(e, 0, Math.cos(angle), Math.sin(angle), out);
  return out;
};

describe('the mobility of a bearing of finite length', () => {
  it('is Ocvirk’s when the bearing is short', () => {
    for (const e of [0, 0.3, 0.6, 0.85])
      for (const angle of [0, 0.7, 1.6, 2.5, Math.PI]) {
        const [found, short] = [velocityOf(0.05, e, angle), shortVelocity(e, angle)];
        const miss = Math.hypot(found.x - short.x, found.y - short.y) / Math.hypot(short.x, short.y);
        expect(miss, `ε ${e}, ${angle}`).toBeLessThan(0.03);
      }
  });

  it('of a concentric journal lies between the film without edges and the full film with edges', () => {
    for (const long of [0.5, 1, 2, 5]) {
      // Without edges p = 12 (1 + cos ψ) just touches zero: F = 12 π μ V R³ L/c³. Edges can only take pressure away.
      const without = long ** 2 / (3 * Math.PI);
      // With edges and allowed to pull, p = 12 cos ψ (1 − cosh(z/R)/cosh(L/D)), of which half pushes; a film that may
      // not pull stands nowhere under it.
      const pulling = (2 * without) / (1 - Math.tanh(long) / long);
      const { x } = velocityOf(long, 0, 0);
      expect(x).toBeGreaterThan(without);
      expect(x).toBeLessThan(pulling);
    }
    expect(velocityOf(20, 0, 0).x / (20 ** 2 / (3 * Math.PI))).toBeLessThan(1.15);
  });

  // The tables have their film begin at the widest gap; one that forms by itself begins a little before it.
  it('holds the journal of a steady bearing where the film of the design tables has it', () => {
    for (const long of [0.25, 0.5, 1])
      for (const e of [0.2, 0.5, 0.7, 0.9]) {
        const { sommerfeld, attitude } = plainBearingAt(plainFilm(long), e)!;
        // F c²/(μ L³ R) = ω (R/L)² · (1/(π S)) with ω = 1; the load lies behind the line of centres by the attitude.
        const load = 1 / (4 * long ** 2) / (Math.PI * sommerfeld);
        const v = velocityOf(long, e, -attitude);
        expect(Math.abs((v.y * load) / (-e / 2) - 1), `turning at L/D ${long}, ε ${e}`).toBeLessThan(0.05);
        expect(Math.abs((v.x * load) / (e / 2)), `drift at L/D ${long}, ε ${e}`).toBeLessThan(0.07);
      }
  });

  it('turns with what it is given, is its own mirror image, and grows with the load', () => {
    const out = { x: 0, y: 0 };
    const mobility = finiteMobility(0.5);
    mobility.velocity(0.5, 0.2, 2, 1, out);
    const one = { ...out };
    mobility.velocity(-0.2, 0.5, -1, 2, out);
    expect([out.x, out.y]).toEqual([expect.closeTo(-one.y, 12), expect.closeTo(one.x, 12)]);
    mobility.velocity(0.5, -0.2, 2, -1, out);
    expect([out.x, out.y]).toEqual([expect.closeTo(one.x, 12), expect.closeTo(-one.y, 12)]);
    mobility.velocity(0.5, 0.2, 6, 3, out);
    expect(out.x).toBeCloseTo(3 * one.x, 10);
  });

  it('gives way the more, set beside the short bearing, the longer the bearing', () => {
    const shares = [0.1, 0.25, 0.5, 1].map((long) => velocityOf(long, 0.8, 0).x / shortVelocity(0.8, 0).x);
    for (let k = 1; k < shares.length; k++) expect(shares[k]!).toBeGreaterThan(shares[k - 1]!);
    expect(shares[0]!).toBeGreaterThan(1);
  });
});
