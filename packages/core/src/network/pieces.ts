import type { ElementConditions, FlowLaw } from './flow-law.ts';

// The few shapes that laws are put together from. What speed, viscosity and density do to each is known here, so
// a change of conditions goes through numbers alone and asks no law again.

/** How a film's flow grows with eccentricity: not at all; 1 + 1.5 ε² as a mean once round; (1 + ε)³ at the widest gap. */
export const GROWTH = { none: 0, annular: 1, widest: 2 } as const;

/** Where a journal runs: told, or found from its load by the short-bearing formula. */
export type Journal =
  | { readonly eccentricity: number }
  | {
      /** Steady load of one land, and its part for each square of 1000 rev/min [N]. */
      readonly load: number;
      readonly loadPerKrpm2: number;
      /** i R L³ of the land: with μ and ω what carries it [m⁴]. */
      readonly stiffness: number;
    };

/**
 *     Q = k h³ f(ε) Δp / μ     and, where the journal draws oil along,  + a ω ε h Δp/(|Δp| + p_s)
 */
export interface FilmPiece {
  readonly shape: 'film';
  /** k, flow at unit gap, viscosity and pressure, concentric. */
  readonly strength: number;
  /** h [m] */
  readonly gap: number;
  /** The parameter that is this gap; whatever it does to the element, it does through its gaps. */
  readonly gapKey?: string;
  readonly growth: (typeof GROWTH)[keyof typeof GROWTH];
  readonly journal?: Journal;
  /** a [m²] and p_s [Pa]. */
  readonly drawn?: { readonly amount: number; readonly half: number };
}

/** What thick oil does at the edge of a hole. */
export interface HoleEdge {
  /** Of a round hole of that area [m] */
  readonly diameter: number;
  /** k of the creeping limit, see `creepOfHole` [1/m²] */
  readonly creep: number;
  /** Whether it counts; where not, the coefficient is held constant however thick the oil. */
  readonly creeping: boolean;
}

export type Piece =
  | FilmPiece
  /** Q = v ω, whatever the pressure; v in m³ a radian of the crank. */
  | { readonly shape: 'delivery'; readonly perRadian: number }
  /** Q = a √(2/ρ) Δp/√(|Δp| + p0), a with its discharge coefficient [m²]; p0 more by creep μ²/ρ where that counts. */
  | ({ readonly shape: 'hole'; readonly area: number } & HoleEdge)
  /** The same behind a valve that opens from `opening` over `range` [Pa] by u² (3 − 2u). */
  | ({
      readonly shape: 'valve';
      readonly area: number;
      readonly opening: number;
      readonly range: number;
    } & HoleEdge)
  /** The same through a port of area min(perPascal (Δp − cracking), fullest), with its coefficient. */
  | {
      readonly shape: 'relief';
      readonly coefficient: number;
      readonly cracking: number;
      readonly perPascal: number;
      readonly fullest: number;
    }
  /** Δp = max(128 μ L Q/(π d⁴), 0.3164 Re^−¼ (L/d) ρ V²/2) + K ρ V²/2 */
  | { readonly shape: 'passage'; readonly bore: number; readonly length: number; readonly minor: number }
  | { readonly shape: 'own'; readonly flow: (c: ElementConditions) => FlowLaw };
