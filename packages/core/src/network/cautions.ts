import type { Caution } from '../issue.ts';
import type { CompiledNetwork } from './compiled.ts';
import { sweptPerRadian } from './delivery.ts';

/** Oil tears and gives off its air before this [Pa, gauge]. */
const LEAST_PRESSURE = -0.9e5;
/** Depression at a pump's inlet that hydraulic practice stays under, 5 inHg [Pa]; common practice, no source. */
const AERATION = 17e3;

/** What a balance that was found still should not be believed in. @param pressures  in the order of the nodes */
export function networkCautions(
  network: CompiledNetwork,
  pressures: ArrayLike<number>,
  replaced: Readonly<Record<string, number>> = {},
): Caution[] {
  const cautions: Caution[] = [];
  const { nodes, inside } = network;
  const torn = nodes.filter((_, i) => pressures[i]! < LEAST_PRESSURE);
  if (torn.length > 0)
    cautions.push({
      code: 'network/below-vacuum',
      message: `At ${torn.join(', ')} the oil would have to pull harder than a vacuum: it tears there, and the answer does not hold.`,
    });
  const sucking = new Set(inside.elements.flatMap(({ law, from }) => (law.pump && from >= 0 ? [from] : [])));
  for (const node of sucking)
    if (pressures[node]! < -AERATION && pressures[node]! >= LEAST_PRESSURE)
      cautions.push({
        code: 'network/aeration',
        message: `At ${nodes[node]}, where a pump draws, the pressure is ${kilopascals(-pressures[node]!)} kPa below the air's. From about ${kilopascals(AERATION)} kPa (5 inHg, common practice, no source) dissolved air comes out of the oil, the pump delivers froth and growls, and the pressures here are too high. Look for a blocked strainer, a narrow or long pickup pipe, cold oil.`,
      });
  return [...cautions, ...scavengeCautions(network, replaced)];
}

const kilopascals = (pressure: number): string => (pressure / 1e3).toFixed(0);

/** What the scavenge pumps can carry beside what the pressure pumps send out. */
function scavengeCautions(
  { inside }: CompiledNetwork,
  replaced: Readonly<Record<string, number>>,
): Caution[] {
  let sent = 0;
  let carried = 0;
  let wanted = 0;
  for (const element of inside.elements) {
    const { id, law, parameters } = element;
    if (!law.pump && !law.aside) continue;
    const now = Object.fromEntries(
      Object.entries(parameters).map(([key, value]) => [key, replaced[`${id}.${key}`] ?? value]),
    );
    const swept = sweptPerRadian(element, now);
    if (law.pump) sent += swept;
    else {
      carried += swept;
      wanted = Math.max(wanted, now.wanted_ratio!);
    }
  }
  if (!(wanted > 0) || sent === 0) return [];
  const ratio = carried / sent;
  if (ratio >= wanted) return [];
  return [
    {
      code: 'network/scavenge',
      message: `The scavenge pumps carry ${ratio.toFixed(2)} times what the pressure pumps send out; ${wanted} times is wanted, since what they carry is half air. The crankcase will fill: oil is thrown about, lost and frothed.`,
    },
  ];
}
