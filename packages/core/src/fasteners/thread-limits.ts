import { failed, type Outcome, ok } from '../issue.ts';
import { type Metre, metre } from '../units/si.ts';
import { minorDiameterInternal, pitchDiameter, type Thread } from './thread.ts';

/** The four limits of size on which stripping rests [m]. */
export interface ThreadLimits {
  /** Ds,min. */
  readonly externalMajorMin: Metre;
  /** Es,min. */
  readonly externalPitchMin: Metre;
  /** Kn,max. */
  readonly internalMinorMax: Metre;
  /** En,max. */
  readonly internalPitchMax: Metre;
  /** `2A/2B` or `6g/6H`. */
  readonly fit: string;
}

const INCH = 0.0254;
const MICRON = 1e-6;

/**
 * Limits of class 2A with 2B, in inches:
 *
 *     Td2 = 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3)    allowance 0.3 Td2
 *     major tolerance 0.060 P^(2/3), 2B pitch tolerance 1.3 Td2
 *     2B minor tolerance 0.25 P − 0.4 P² from 1/4 in; below, 0.05 P^(2/3) + 0.03 P/D − 0.002,
 *     no more than 0.394 P and no less than 0.25 P − 0.4 P²
 *
 * @param engagement  LE, the diameter for UNC and UNF, nine pitches for the other series unless given [m]
 * @source asme-b1-1
 */
export function unifiedLimits(thread: Thread, engagement?: Metre): ThreadLimits {
  const d = thread.major / INCH;
  const p = thread.pitch / INCH;
  const usual = thread.series === 'UNC' || thread.series === 'UNF' ? d : 9 * p;
  const length = engagement === undefined ? usual : engagement / INCH;
  const external = 0.0015 * Math.cbrt(d) + 0.0015 * Math.sqrt(length) + 0.015 * p ** (2 / 3);
  const allowance = 0.3 * external;
  const usualMinor = 0.25 * p - 0.4 * p * p;
  const smallMinor = 0.05 * p ** (2 / 3) + (0.03 * p) / d - 0.002;
  const minor = d >= 0.25 ? usualMinor : Math.min(0.394 * p, Math.max(smallMinor, usualMinor));
  const pitchBasic = pitchDiameter(thread) / INCH;
  return {
    externalMajorMin: metre((d - allowance - 0.06 * p ** (2 / 3)) * INCH),
    externalPitchMin: metre((pitchBasic - allowance - external) * INCH),
    internalMinorMax: metre(minorDiameterInternal(thread) + minor * INCH),
    internalPitchMax: metre((pitchBasic + 1.3 * external) * INCH),
    fit: '2A/2B',
  };
}

/** By pitch [mm]: es of position g, major tolerance Td of grade 6, minor tolerance TD1 of grade 6 [µm]. */
const BY_PITCH: Readonly<Record<string, readonly [number, number, number]>> = {
  '0.5': [20, 106, 140],
  '0.6': [21, 125, 160],
  '0.7': [22, 140, 180],
  '0.75': [22, 140, 190],
  '0.8': [24, 150, 200],
  '1': [26, 180, 236],
  '1.25': [28, 212, 265],
  '1.5': [32, 236, 300],
  '1.75': [34, 265, 335],
  '2': [38, 280, 375],
  '2.5': [42, 335, 450],
  '3': [48, 375, 500],
  '3.5': [53, 425, 560],
};

/** By diameter over and up to [mm]: pitch [mm] to Td2 and TD2 of grade 6 [µm]. */
const BY_DIAMETER: readonly {
  readonly over: number;
  readonly to: number;
  readonly tolerances: Readonly<Record<string, readonly [number, number]>>;
}[] = [
  {
    over: 2.8,
    to: 5.6,
    tolerances: { '0.5': [75, 100], '0.6': [85, 112], '0.7': [90, 118], '0.75': [90, 118], '0.8': [95, 125] },
  },
  {
    over: 5.6,
    to: 11.2,
    tolerances: { '0.75': [100, 132], '1': [112, 150], '1.25': [118, 160], '1.5': [132, 180] },
  },
  {
    over: 11.2,
    to: 22.4,
    tolerances: {
      '1': [118, 160],
      '1.25': [132, 180],
      '1.5': [140, 190],
      '1.75': [150, 200],
      '2': [160, 212],
      '2.5': [170, 224],
    },
  },
  {
    over: 22.4,
    to: 45,
    tolerances: { '1': [125, 170], '1.5': [150, 200], '2': [170, 224], '3': [200, 265], '3.5': [212, 280] },
  },
];

/**
 * Limits of 6g with 6H, as tabulated for normal engagement. The standard's own formulas (es = −(15 + 11 P),
 * Td = 180 P^(2/3) − 3.15/√P, Td2 = 90 P^0.4 d^0.1, TD2 = 1.32 Td2, TD1 = 230 P^0.7 from P = 1; µm, mm) give the
 * table but for rounding, and the tests hold it to them.
 *
 * @source iso-965-1
 */
export function metricLimits(thread: Thread): Outcome<ThreadLimits> {
  const key = String(Number((thread.pitch * 1000).toFixed(4)));
  const mm = thread.major * 1000;
  const byPitch = BY_PITCH[key];
  const byDiameter = BY_DIAMETER.find(({ over, to }) => mm > over && mm <= to)?.tolerances[key];
  if (!byPitch || !byDiameter) {
    return failed({
      code: 'thread/no-limits',
      at: 'designation',
      got: thread.designation,
      wanted: 'a metric thread over 2.8 up to 45 mm with a tabulated pitch',
      message: `No 6g and 6H limits of size are held for ${thread.designation}. Take its limits from the standard.`,
    });
  }
  const [allowance, major, minor] = byPitch;
  const [external, internal] = byDiameter;
  return ok({
    externalMajorMin: metre(thread.major - (allowance + major) * MICRON),
    externalPitchMin: metre(pitchDiameter(thread) - (allowance + external) * MICRON),
    internalMinorMax: metre(minorDiameterInternal(thread) + minor * MICRON),
    internalPitchMax: metre(pitchDiameter(thread) + internal * MICRON),
    fit: '6g/6H',
  });
}

/** 2A/2B or 6g/6H, whichever belongs to the thread. */
export function threadLimits(thread: Thread): Outcome<ThreadLimits> {
  return thread.form === 'unified' ? ok(unifiedLimits(thread)) : metricLimits(thread);
}
