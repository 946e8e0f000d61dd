import type { CompiledNetwork } from './compiled.ts';
import type { Choices, Law, Parameters } from './element.ts';
import { LAWS, type LawName } from './laws.ts';

/** Whether a law pushes oil into the circuit, and whether it stands beside it, as the scavenge pump of a dry sump. */
export function pumping(law: string): { readonly pump: boolean; readonly aside: boolean } {
  const known: Law | undefined = Object.hasOwn(LAWS, law) ? LAWS[law as LawName] : undefined;
  return { pump: known?.pump === true, aside: known?.aside === true };
}

/** What the pumps of a network would deliver without their leaks at a speed of the crank [m³/s]. */
export const idealDelivery = ({ inside }: CompiledNetwork, speed: number): number =>
  inside.elements.reduce((sum, e) => sum + (e.law.pump ? speed * sweptPerRadian(e, e.parameters) : 0), 0);

/** Volume that an element sweeps for each radian of the crank, all its equal ones together [m³]. */
export function sweptPerRadian(
  { law, choices }: { readonly law: Law; readonly choices: Choices },
  p: Parameters,
): number {
  if (!('pieces' in law)) return 0;
  let swept = 0;
  for (const piece of law.pieces(p, choices)) if (piece.shape === 'delivery') swept += piece.perRadian;
  return p.count! * swept;
}

/** Parameters of a pump that are gaps oil or air can slip back through. */
export function slipGaps(law: string): readonly string[] {
  const known: Law | undefined = Object.hasOwn(LAWS, law) ? LAWS[law as LawName] : undefined;
  return known?.pump === true
    ? Object.keys(known.parameters).filter((key) => /_clearance$|_groove$/.test(key))
    : [];
}

/**
 * What a pump sweeps and lets slip, by its law and parameters alone.
 *
 * @param p  as resolved for a network [SI]
 * @returns  swept for each radian of the crank [m³]; slip times viscosity over pressure [m³]
 */
export function pumpFigures(law: LawName, p: Parameters): { perRadian: number; slip: number } {
  const known: Law = LAWS[law];
  let [perRadian, slip] = [0, 0];
  if ('pieces' in known)
    for (const piece of known.pieces(p, {})) {
      if (piece.shape === 'delivery') perRadian += piece.perRadian;
      else if (piece.shape === 'film') slip += piece.strength * piece.gap ** 3;
    }
  return { perRadian, slip };
}
