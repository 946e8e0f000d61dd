import { describe, expect, it } from 'vitest';
import { fedBearingFor } from '../film/fed-bearing.ts';
import { compiledNetwork } from './compiled.ts';
import { solvedNetwork } from './network.ts';

const RPM = Math.PI / 30;
const VISCOSITY = 0.01;
const SPEED = 2000 * RPM;

/** One bearing on a pump that can only leave through it. */
function solvedFor(flow: number, bearing: Readonly<Record<string, number | string>>) {
  const network = compiledNetwork({
    fluid: { dynamic_viscosity: VISCOSITY, density: 850 },
    elements: [
      {
        id: 'pump',
        law: 'gear-pump',
        to: 'gallery',
        displacement: (flow / SPEED) * 2 * Math.PI,
        speed_ratio: 1,
      },
      { id: 'bearing', from: 'gallery', ...bearing } as never,
    ],
  });
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  const solved = solvedNetwork(network.value, { speed: SPEED, temperature: 350 });
  if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
  return solved.value;
}

/** The pressure that drives that flow. */
const pressureFor = (flow: number, bearing: Readonly<Record<string, number | string>>): number =>
  solvedFor(flow, bearing).pressures.gallery!;

const SIZE = { diameter: 0.05, length: 0.025, radial_clearance: 25e-6 };
const film = (more: Readonly<Record<string, number | string>>) => ({
  law: 'film-bearing',
  ...SIZE,
  load: 500,
  ...more,
});

describe('a bearing whose film is solved over its length', () => {
  it('says when its load lies beyond the films solved, and nothing when it lies among them', () => {
    const cautions = (load: number) =>
      solvedFor(2e-6, film({ supply: 'hole', hole_diameter: 0.00625, load })).cautions;
    expect(cautions(500)).toEqual([]);
    expect(cautions(5e6)[0]).toMatchObject({ code: 'network/outside-table' });
    expect(cautions(5e6)[0]!.message).toMatch(/bearing: its film is loaded more heavily \(Sommerfeld number/);
    expect(cautions(0.01)[0]?.message).toMatch(/more lightly/);
  });

  it('says when it is fed at a pressure beyond the films solved: which bearing, what came, what the table spans', () => {
    const of = (flow: number, more: Readonly<Record<string, number | string>>) => {
      const { pressures, cautions } = solvedFor(flow, film(more));
      const star =
        pressures.gallery! / ((VISCOSITY * SPEED * (SIZE.diameter / 2) ** 2) / SIZE.radial_clearance ** 2);
      return { star, cautions };
    };
    const hole = { supply: 'hole', hole_diameter: 0.00625 };
    expect(of(2e-6, hole).cautions).toEqual([]);
    const { star, cautions } = of(1e-4, hole);
    expect(star).toBeGreaterThan(8);
    expect(cautions).toMatchObject([{ code: 'network/outside-table', about: 'bearing' }]);
    expect(cautions[0]!.message).toContain(`p* = ${Number(star.toPrecision(2))}`);
    expect(cautions[0]!.message).toMatch(/solved from 0 to 8/);
    // A groove that is hardly fed lies under its table, and a load beyond it as well is said in the same breath.
    const groove = of(1e-10, { supply: 'full-groove', groove_width: 0.005, load: 5e6 });
    expect(groove.star).toBeLessThan(0.003);
    expect(groove.cautions[0]!.message).toMatch(/more heavily .* and its film is fed at .* from 0\.003 to 8/);
  });

  it('lets through what the film itself does at that load and pressure', () => {
    // S = (R/c)² μ N D L/W; p* = p c²/(μ ω R²); flow in c ω R².
    const [radius, clearance] = [SIZE.diameter / 2, SIZE.radial_clearance];
    const n = SPEED / (2 * Math.PI);
    const s = ((radius / clearance) ** 2 * VISCOSITY * n * SIZE.diameter * SIZE.length) / 500;
    const unit = (VISCOSITY * SPEED * radius ** 2) / clearance ** 2;
    const shape = {
      lengthOverDiameter: 0.5,
      supply: { kind: 'hole', diameter: 0.25, at: Math.PI },
    } as const;
    const solved = fedBearingFor(shape, s, 0.3)!;
    const flow = solved.feedFlow * clearance * SPEED * radius ** 2;
    const pressure = pressureFor(flow, film({ supply: 'hole', hole_diameter: 0.00625 }));
    expect(Math.abs(pressure / (0.3 * unit) - 1)).toBeLessThan(0.02);
  });

  it('with a groove all round and next to no load is the two lands of the closed formula', () => {
    // Q = π D c³ p/(6 μ l), lands of 10 mm each side of a groove of 5 mm.
    const pressure = pressureFor(2e-6, film({ supply: 'full-groove', groove_width: 0.005, load: 5 }));
    const closed = (2e-6 * 6 * VISCOSITY * 0.01) / (Math.PI * SIZE.diameter * SIZE.radial_clearance ** 3);
    expect(Math.abs(pressure / closed - 1)).toBeLessThan(0.02);
  });

  it('wants the size that goes with its supply, smaller than itself', () => {
    const codes = (more: Readonly<Record<string, number | string>>) => {
      const network = compiledNetwork({
        fluid: { dynamic_viscosity: VISCOSITY, density: 850 },
        elements: [{ id: 'bearing', from: 'gallery', ...film(more) } as never],
      });
      return network.ok ? [] : network.issues.map(({ code, at }) => `${code} ${at}`);
    };
    expect(codes({ supply: 'hole', groove_width: 0.005 })).toEqual([
      'network/impossible /elements/0/hole_diameter',
    ]);
    expect(codes({ supply: 'hole', hole_diameter: 0.03 })).toEqual([
      'network/impossible /elements/0/hole_diameter',
    ]);
    // Shapes for which no table can be built are refused, not guessed at.
    expect(codes({ supply: 'hole', hole_diameter: 0.0005 })).toEqual([
      'network/impossible /elements/0/hole_diameter',
    ]);
    expect(codes({ supply: 'full-groove', groove_width: 0.024 })).toEqual([
      'network/impossible /elements/0/groove_width',
    ]);
    expect(codes({ supply: 'axial-groove', groove_length: 0.02, groove_arc: 0.01 })).toEqual([
      'network/impossible /elements/0/groove_arc',
    ]);
    expect(codes({ supply: 'hole', hole_diameter: 0.006, length: 0.5 })).toEqual([
      'network/impossible /elements/0/length',
    ]);
  });
});
