import type { Caution } from '../issue.ts';
import type { Holes } from './columns.ts';
import type { Flat } from './flat.ts';

/**
 * Reynolds number, on the ideal velocity √(2 Δp/ρ), from which a sharp edge is taken to hold its coefficient. From
 * memory, no source: measured coefficients of small sharp-edged holes stay at .6 to .7 down to about there and fall
 * with √Re below.
 */
export const CONSTANT_FROM = 100;
/** What lets through less than this of the oil delivered moves no pressure worth a word. */
const WORTH = 0.01;

/**
 * Laws that hold only by being stretched: films outside their tables, and jets of oil too thick for a constant
 * coefficient.
 *
 * @param flat   as the balance left it: flows of its entries belong to `state`
 * @param names  of the elements
 */
export function stretchedLaws(flat: Flat, names: readonly string[], state: Float64Array): Caution[] {
  const { owns } = flat;
  const films = [...owns.law].flatMap((law, i): Caution[] => {
    const outside = law?.outside?.(state[owns.from[i]!]! - state[owns.to[i]!]! + owns.head[i]!);
    const about = names[owns.element[i]!]!;
    return outside === undefined
      ? []
      : [{ code: 'network/outside-table', about, message: `${about}: ${outside}.` }];
  });
  const thick = thickJets(flat, names, state);
  return thick ? [...films, thick] : films;
}

interface Jet {
  readonly name: string;
  readonly reynolds: number;
  /** Share of its flow that the creeping limit would leave. */
  readonly left: number;
}

function thickJets(flat: Flat, names: readonly string[], state: Float64Array): Caution | undefined {
  const delivered = flat.deliveries.flow.reduce((sum, one) => sum + Math.abs(one), 0);
  const jets = [flat.holes, flat.valves].flatMap((of) => jetsOf(of, names, state, WORTH * delivered));
  if (jets.length === 0) return undefined;
  const numbers = jets.map(({ reynolds }) => Math.round(reynolds)).sort((a, b) => a - b);
  const [least, most] = [numbers[0]!, numbers.at(-1)!];
  const less = Math.round(100 * (1 - Math.min(...jets.map(({ left }) => left))));
  return {
    code: 'network/thick-jet',
    message: `Through ${jets.map(({ name }) => name).join(', ')} the oil goes at a Reynolds number of ${least === most ? least : `${least} to ${most}`}. A sharp edge holds its discharge coefficient from about ${CONSTANT_FROM} (from memory, no source). Thicker oil passes less than is reckoned here, up to ${less} % less by the creeping limit of a sharp edge (Wuest 1954, from memory), more so through a hole that is drilled long. The circuit can count it in: thick_oil "creeping", or the law drilled-jet.`,
  };
}

function jetsOf(holes: Holes, names: readonly string[], state: Float64Array, worth: number): Jet[] {
  const jets: Jet[] = [];
  for (let i = 0; i < holes.size; i++) {
    if (holes.creeping[i] !== 0 || !(Math.abs(holes.flow[i]!) > worth)) continue;
    const size = Math.abs(state[holes.from[i]!]! - state[holes.to[i]!]! + holes.head[i]!);
    const reynolds = holes.reynolds[i]! * Math.sqrt(size);
    if (reynolds >= CONSTANT_FROM) continue;
    // p0/Δp of the creeping limit, by Re² = 2 ρ Δp d²/μ².
    const over = 2 * holes.creep[i]! * (holes.diameter[i]! / reynolds) ** 2;
    jets.push({ name: names[holes.element[i]!]!, reynolds, left: 1 / Math.sqrt(1 + over) });
  }
  return jets;
}
