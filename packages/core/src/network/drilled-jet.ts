import { longHoleCoefficient } from '../oil/orifice.ts';
import { type Law, needed } from './element.ts';
import type { FlowAndSlope } from './flow-law.ts';

/** Where the coefficient was measured: lengths in diameters, and Reynolds numbers of the ideal jet. */
const LENGTHS = { from: 2, to: 10 } as const;
const REYNOLDS = { from: 10, to: 20_000 } as const;

export const drilledJet: Law = {
  doc: 'Jet drilled two to ten diameters long, its discharge coefficient falling as the oil thickens. For a thin plate take orifice.',
  formula:
    'Q = Cd A √(2 Δp/ρ), 1/Cd = 1/(0.827 − 0.0085 L/d) + (20/Re)(1 + 2.25 L/d) − 0.005 (L/d)/(1 + 7.5 [log10(0.00015 Re)]²), Re = d √(2 ρ Δp)/μ',
  source: 'lichtarowicz',
  parameters: {
    diameter: needed('length', 'd, of the hole'),
    length: needed('length', 'L, of the hole'),
  },
  fault: (p) => {
    const ratio = p.length! / p.diameter!;
    return ratio < LENGTHS.from || ratio > LENGTHS.to
      ? {
          key: 'length',
          wanted: `a length of ${LENGTHS.from} to ${LENGTHS.to} diameters, for which it was measured`,
        }
      : undefined;
  },
  flow: (p, { viscosity, density, smoothing }) => {
    const ratio = p.length! / p.diameter!;
    const area = (Math.PI / 4) * p.diameter! ** 2;
    const reynolds = (p.diameter! * Math.sqrt(2 * density)) / viscosity;
    const flowAt = (size: number): number =>
      longHoleCoefficient(reynolds * Math.sqrt(size), ratio) * area * Math.sqrt((2 * size) / density);
    const small = flowAt(smoothing) / smoothing;
    const law = (difference: number, out: FlowAndSlope): void => {
      const size = Math.abs(difference);
      // Under the smoothing pressure it is a straight line, as thick oil makes it anyhow.
      if (size <= smoothing) {
        out.flow = small * difference;
        out.slope = small;
        return;
      }
      const flow = flowAt(size);
      const h = 1e-4 * size;
      out.flow = difference < 0 ? -flow : flow;
      out.slope = (flowAt(size + h) - flowAt(size - h)) / (2 * h);
    };
    return Object.assign(law, {
      outside: (difference: number): string | undefined => {
        const at = reynolds * Math.sqrt(Math.abs(difference));
        return at > REYNOLDS.to || (at < REYNOLDS.from && Math.abs(difference) > smoothing)
          ? `its Reynolds number is ${Number(at.toPrecision(2))}, and its discharge coefficient was measured from ${REYNOLDS.from} to ${REYNOLDS.to}; it is carried on by the same formula, a guess`
          : undefined;
      },
    });
  },
};
