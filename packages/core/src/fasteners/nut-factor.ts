/** The nut factor K of T = K F d for one condition of the surfaces, with what it may really be. */
export interface NutFactor {
  readonly condition: string;
  readonly nominal: number;
  /** Slippery end: the preload is greatest here. */
  readonly low: number;
  readonly high: number;
  /** Keys in `sources`. */
  readonly sources: readonly string[];
}

/**
 * Scatter of preload for a hand torque wrench with friction assumed, as a fraction of the preload meant.
 * Published spans run from 0.25 to 0.30; the wider is taken, so that three quarters of proof stays under proof.
 */
export const PRELOAD_SCATTER = 0.3;

interface Row {
  readonly nominal: number;
  /** Every figure found in print; where they disagree, the band holds them all. */
  readonly printed: readonly number[];
  readonly sources: readonly string[];
}

const TABLE = {
  dry: { nominal: 0.2, printed: [0.2], sources: ['bolt-handbook', 'torque-table-drive-parts'] },
  'black finish': { nominal: 0.3, printed: [0.3], sources: ['shigley-fasteners'] },
  oiled: { nominal: 0.18, printed: [0.18], sources: ['shigley-fasteners'] },
  'zinc plated': {
    nominal: 0.2,
    printed: [0.2, 0.22, 0.295],
    sources: ['shigley-fasteners', 'bolt-handbook', 'torque-table-drive-parts'],
  },
  'cadmium plated': { nominal: 0.16, printed: [0.16, 0.2], sources: ['shigley-fasteners', 'bolt-handbook'] },
  'anti-seize': { nominal: 0.12, printed: [0.12], sources: ['shigley-fasteners'] },
  waxed: { nominal: 0.1, printed: [0.1], sources: ['torque-table-drive-parts'] },
  unknown: { nominal: 0.2, printed: [0.12, 0.2, 0.3], sources: ['shigley-fasteners'] },
} as const satisfies Readonly<Record<string, Row>>;

export type ThreadCondition = keyof typeof TABLE;
export const THREAD_CONDITIONS = Object.keys(TABLE) as readonly ThreadCondition[];

const ALSO: Readonly<Record<string, ThreadCondition>> = {
  'bare steel': 'dry',
  plain: 'dry',
  lubricated: 'oiled',
  'zinc-plated': 'zinc plated',
  cadmium: 'cadmium plated',
  zinc: 'zinc plated',
};

/** The nut factor of a condition and its band; nothing for a condition that is not listed. */
export function nutFactor(condition: string): NutFactor | undefined {
  const asked = condition.trim().toLowerCase();
  const key = ALSO[asked] ?? THREAD_CONDITIONS.find((known) => known === asked);
  if (!key) return undefined;
  const { nominal, printed, sources }: Row = TABLE[key];
  const scatter = bandOf(nominal);
  return {
    condition: key,
    nominal,
    low: Math.min(scatter.low, ...printed),
    high: Math.max(scatter.high, ...printed),
    sources,
  };
}

/** A nut factor somebody states keeps the scatter of the wrench. */
export function statedNutFactor(nominal: number): NutFactor {
  return { condition: 'stated', nominal, ...bandOf(nominal), sources: ['preload-scatter'] };
}

const bandOf = (nominal: number) => ({
  low: nominal / (1 + PRELOAD_SCATTER),
  high: nominal / (1 - PRELOAD_SCATTER),
});
