/** What can be wrong with an oil system, as one looks for it: one kind, one place to go and look. */
export type FamilyKind =
  | 'nothing'
  | 'worn-throughout'
  | 'bearings'
  | 'pump-faces'
  | 'pump-tips'
  | 'relief-open'
  | 'spring'
  | 'thin-oil'
  | 'suction-air'
  | 'pickup'
  | 'lost-plug'
  | 'restrictor-lost'
  | 'restrictor-blocked'
  | 'gauge';

/** What a fault does to the circuit. */
export interface Changes {
  /** `element.parameter` → factor on what it would be without the fault. */
  readonly factors?: Readonly<Record<string, number>>;
  /** `element.parameter` → its value in SI. */
  readonly values?: Readonly<Record<string, number>>;
  /** Factor on the viscosity, at every temperature. */
  readonly viscosity?: number;
  /** Share of what the pump sweeps that is air. */
  readonly air?: number;
  /** Most oil that reaches the pump, as a share of what it sweeps at the fastest speed of the sheet. */
  readonly ceiling?: number;
}

/** How bad a fault may be: evenly spread between two figures, in the figure or in its logarithm. */
export interface Severity {
  readonly from: number;
  readonly to: number;
  readonly by: 'figure' | 'logarithm';
  /** What the figure is, in words: “times the clearance”. */
  readonly of: string;
}

/** A doubt about one gauge beyond its stated uncertainty: its zero [Pa], or its scale [1]. */
export interface GaugeFault {
  readonly instrument: string;
  readonly offset: number;
  readonly scale: number;
}

/** One way in which the fault may be there; those of a family share its probability evenly. */
export interface Variant {
  readonly changes: (severity: number) => Changes;
  readonly gauge?: GaugeFault;
}

export interface Family {
  readonly id: string;
  readonly kind: FamilyKind;
  readonly name: string;
  /** Probability before any reading, assumed; all families sum to 1. */
  readonly prior: number;
  /** Absent where nothing is graded: nothing wrong, or a gauge whose error is spread around none. */
  readonly severity?: Severity;
  /** What the fault is taken to be, in words. */
  readonly model: string;
  readonly variants: readonly Variant[];
}

/** The severity at a share of its spread. @param u  0 to 1 */
export function severityAt({ from, to, by }: Severity, u: number): number {
  return by === 'figure' ? from + u * (to - from) : from * (to / from) ** u;
}

/**
 * How likely each kind is before any reading, as weights: common sense of the trade, no source. A kind that the
 * circuit splits (mains, rods, cam …) shares its weight; what was measured is less likely to be worse than measured.
 */
export const PRIOR_WEIGHTS: Readonly<Record<FamilyKind, { unmeasured: number; measured: number }>> = {
  nothing: { unmeasured: 0.15, measured: 0.45 },
  'worn-throughout': { unmeasured: 0.2, measured: 0 },
  bearings: { unmeasured: 0.2, measured: 0.06 },
  'pump-faces': { unmeasured: 0.08, measured: 0.025 },
  'pump-tips': { unmeasured: 0.05, measured: 0.015 },
  'relief-open': { unmeasured: 0.06, measured: 0.06 },
  spring: { unmeasured: 0.05, measured: 0.02 },
  'thin-oil': { unmeasured: 0.06, measured: 0.06 },
  'suction-air': { unmeasured: 0.03, measured: 0.04 },
  pickup: { unmeasured: 0.03, measured: 0.04 },
  'lost-plug': { unmeasured: 0.02, measured: 0.05 },
  'restrictor-lost': { unmeasured: 0.02, measured: 0.03 },
  'restrictor-blocked': { unmeasured: 0.02, measured: 0.03 },
  gauge: { unmeasured: 0.06, measured: 0.06 },
};

/** How bad each kind is taken to be. Assumed. */
export const SEVERITIES = {
  throughout: { from: 1.2, to: 2.5, by: 'logarithm', of: 'times every clearance as new' },
  clearance: { from: 1.25, to: 4, by: 'logarithm', of: 'times the clearance' },
  relief: { from: 0.02, to: 1, by: 'logarithm', of: 'of the port standing open' },
  spring: { from: 0.4, to: 1.6, by: 'logarithm', of: 'times the load at which it opens' },
  oil: { from: 0.35, to: 0.9, by: 'logarithm', of: 'times the viscosity' },
  air: { from: 0.08, to: 0.7, by: 'figure', of: 'of what the pump sweeps is air' },
  ceiling: { from: 0.08, to: 0.9, by: 'logarithm', of: 'of the pump’s flow at full speed gets through' },
  hole: { from: 1, to: 8, by: 'logarithm', of: 'mm across the open hole' },
  lost: { from: 1.4, to: 5, by: 'logarithm', of: 'times its diameter' },
  blocked: { from: 0.05, to: 0.8, by: 'figure', of: 'times its diameter' },
} as const satisfies Readonly<Record<string, Severity>>;

/** Standard deviations of a gauge that is wrong: of its zero [Pa], and of its scale [1]. Assumed. */
export const WRONG_GAUGE = { offset: 55e3, scale: 0.25 } as const;
