/** Oil as one element sees it: its own film temperature counts. */
export interface FilmOil {
  /** μ [Pa·s] */
  readonly viscosity: number;
  /** ρ [kg/m³] */
  readonly density: number;
}

/** What an element's law is given for one solve. */
export interface ElementConditions extends FilmOil {
  /** Speed of the crank [rad/s] */
  readonly speed: number;
  /** Pressure difference under which an orifice turns linear [Pa] */
  readonly smoothing: number;
}

/** Writes flow and slope of the flow into `out`; reused, so that a thousand solves allocate little. */
export interface FlowAndSlope {
  flow: number;
  slope: number;
}

/**
 * Flow of an element for a pressure difference (upstream less downstream, head included).
 * Never falls as the difference grows: that is what makes the balance of the network convex.
 */
export interface FlowLaw {
  (difference: number, out: FlowAndSlope): void;
  /** Why the law is stretched at that difference under these conditions, in words; undefined where it holds. */
  readonly outside?: (difference: number) => string | undefined;
}
