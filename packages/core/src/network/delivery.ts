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
