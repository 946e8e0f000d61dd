import { describe, expect, it } from 'vitest';
import { creepingHoleFlow, longHoleCoefficient } from '../oil/orifice.ts';
import { metre, pascal, pascalSecond } from '../units/si.ts';
import { compiledNetwork } from './compiled.ts';
import { solvedNetwork } from './network.ts';
import { CONSTANT_FROM } from './stretched-laws.ts';

const DENSITY = 880;

/** One jet under a column of oil of a given pressure: a passage so wide that it takes none of it away. */
function jetAt(pressure: number, viscosity: number, jet: Readonly<Record<string, number | string>>) {
  const network = compiledNetwork({
    fluid: { dynamic_viscosity: viscosity, density: DENSITY },
    elements: [
      { id: 'pump', law: 'gear-pump', to: 'gallery', displacement: 1e-4, speed_ratio: 1 },
      // Opens at once and lets all through that the jet leaves: it holds the pressure.
      {
        id: 'relief',
        law: 'relief-valve',
        from: 'gallery',
        plunger_diameter: 0.02,
        spring_rate: 1e-3,
        cracking_pressure: pressure,
        port_width: 1,
        discharge_coefficient: 0.6,
      },
      { id: 'jet', from: 'gallery', ...jet } as never,
    ],
  });
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  const solved = solvedNetwork(network.value, { speed: 100, temperature: 350 });
  if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
  const { pressures, flows, cautions } = solved.value;
  return { at: pressures.gallery!, flow: flows.jet!, cautions };
}

const EDGE = { law: 'orifice', diameter: 0.001, discharge_coefficient: 0.62 };
const creeping = { ...EDGE, thick_oil: 'creeping' };
const jetFlow = (at: number): number => 0.62 * (Math.PI / 4) * 1e-6 * Math.sqrt((2 * at) / DENSITY);
const reynolds = (at: number, viscosity: number): number => (0.001 * Math.sqrt(2 * DENSITY * at)) / viscosity;

describe('a sharp-edged hole whose creeping limit counts', () => {
  it('lets through the creeping flow of thick oil and the jet of thin oil', () => {
    const thick = jetAt(3e5, 100, creeping);
    const limit = creepingHoleFlow(metre(0.001), pascal(thick.at), pascalSecond(100));
    expect(Math.abs(thick.flow / limit - 1)).toBeLessThan(1e-3);
    const thin = jetAt(3e5, 0.001, creeping);
    expect(Math.abs(thin.flow / jetFlow(thin.at) - 1)).toBeLessThan(1e-4);
  });

  it('lets through less than either limit between them', () => {
    for (const viscosity of [0.1, 0.5, 2]) {
      const { at, flow } = jetAt(3e5, viscosity, creeping);
      const limit = creepingHoleFlow(metre(0.001), pascal(at), pascalSecond(viscosity));
      expect(flow).toBeLessThan(Math.min(limit, jetFlow(at)));
      // 1/Q² is the sum of both.
      expect(Math.abs(flow ** -2 / (limit ** -2 + jetFlow(at) ** -2) - 1)).toBeLessThan(1e-3);
    }
  });
});

describe('a hole drilled long', () => {
  it('lets through what its measured coefficient says', () => {
    const { at, flow, cautions } = jetAt(3e5, 0.2, { law: 'drilled-jet', diameter: 0.001, length: 0.003 });
    // Lichtarowicz at Re = 115, L/d = 3: 1/Cd = 1/0.8015 + (20/Re)(7.75) − 0.015/(1 + 7.5 log10²(0.00015 Re)).
    const re = reynolds(at, 0.2);
    const cd = 1 / (1 / 0.8015 + (20 / re) * 7.75 - 0.015 / (1 + 7.5 * Math.log10(0.00015 * re) ** 2));
    expect(cd).toBeCloseTo(longHoleCoefficient(re, 3), 12);
    expect(Math.abs(flow / ((jetFlow(at) * cd) / 0.62) - 1)).toBeLessThan(1e-9);
    expect(cautions).toEqual([]);
  });

  it('says when the oil is thicker than it was measured with, and refuses a thin plate', () => {
    const thick = jetAt(3e5, 5, { law: 'drilled-jet', diameter: 0.001, length: 0.003 });
    expect(thick.cautions).toMatchObject([{ code: 'network/outside-table', about: 'jet' }]);
    const plate = compiledNetwork({
      fluid: { dynamic_viscosity: 0.01, density: DENSITY },
      elements: [{ id: 'jet', law: 'drilled-jet', from: 'gallery', diameter: 0.001, length: 0.001 }],
    });
    expect(plate.ok ? '' : plate.issues[0]!.code).toBe('network/impossible');
  });
});

describe('a coefficient held constant', () => {
  // A jet of 4 mm takes a share of the oil worth a word.
  const wide = { ...EDGE, diameter: 0.004 };
  const numberAt = (at: number, viscosity: number): number => 4 * reynolds(at, viscosity);

  it('is cautioned where the oil is too thick for it, with its Reynolds number, and not where it holds', () => {
    const thin = jetAt(3e5, 0.1, wide);
    expect(numberAt(thin.at, 0.1)).toBeGreaterThan(CONSTANT_FROM);
    expect(thin.cautions).toEqual([]);
    const { at, cautions } = jetAt(3e5, 2, wide);
    expect(cautions.map(({ code }) => code)).toEqual(['network/thick-jet']);
    expect(cautions[0]!.message).toContain(`Reynolds number of ${Math.round(numberAt(at, 2))}.`);
    // 1 − 1/√(1 + 2 · 2 (12.6 · .62)²/Re²).
    const less = 1 - 1 / Math.sqrt(1 + (4 * (12.6 * 0.62) ** 2) / numberAt(at, 2) ** 2);
    expect(cautions[0]!.message).toContain(`up to ${Math.round(100 * less)} % less`);
    expect(jetAt(3e5, 2, { ...wide, thick_oil: 'creeping' }).cautions).toEqual([]);
  });
});
