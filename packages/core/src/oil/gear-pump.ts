import {
  type CubicMetre,
  type CubicMetrePerSecond,
  cubicMetre,
  cubicMetrePerSecond,
  type Metre,
  type MetrePerSecond,
  type Pascal,
  type PascalSecond,
  type Radian,
  type RadianPerSecond,
} from '../units/si.ts';

/** One of two equal involute gears in mesh. */
export interface PumpGears {
  readonly teeth: number;
  readonly tipDiameter: Metre;
  readonly faceWidth: Metre;
  /** α of the basic rack. */
  readonly pressureAngle: Radian;
  readonly module: Metre;
  readonly centreDistance: Metre;
}

/** p_b = π m cos α [m] */
export const basePitch = (module: Metre, angle: Radian): number => Math.PI * module * Math.cos(angle);

/**
 * Volume that two equal gears deliver in a turn, mean over a tooth.
 *
 *     V = 2 π b (r_a² − (a/2)² − p_b²/12)     sealed on one flank, trapped volume relieved
 *     V = 2 π b (r_a² − (a/2)² − p_b²/48)     no backlash, sealed on both
 *
 * @param gears  r_a tip radius, a centre distance, b face width, p_b base pitch
 * @returns      V [m³/rev]
 * @valid        contact on the involute: see `leavesInvolute`
 * @source       involute-displacement
 */
export function gearPumpDisplacement(gears: PumpGears, sealedFlanks: 1 | 2 = 1): CubicMetre {
  const tip = gears.tipDiameter / 2;
  const pitch = gears.centreDistance / 2;
  const base = basePitch(gears.module, gears.pressureAngle);
  const share = sealedFlanks === 1 ? 12 : 48;
  return cubicMetre(2 * Math.PI * gears.faceWidth * (tip * tip - pitch * pitch - (base * base) / share));
}

/**
 * Whether the tip circle reaches past the point where the line of action touches the base circle.
 *
 *     √(r_a² − r_b²) > a sin α_w,   r_b = z m cos α / 2,   cos α_w = 2 r_b / a
 */
export function leavesInvolute(gears: PumpGears): boolean {
  const base = (gears.teeth * gears.module * Math.cos(gears.pressureAngle)) / 2;
  const tip = gears.tipDiameter / 2;
  const a = gears.centreDistance;
  if (2 * base >= a) return true;
  return tip * tip - base * base > a * a - 4 * base * base;
}

/** What a pump of a displacement would deliver without slip: Q = V ω/(2 π). @source definition */
export const idealFlow = (displacement: CubicMetre, speed: RadianPerSecond): CubicMetrePerSecond =>
  cubicMetrePerSecond((displacement * speed) / (2 * Math.PI));

/** Flow of a slot: Q = w h³ Δp/(12 μ l). @source slot-flow */
export const slotFlow = (
  width: number,
  gap: Metre,
  length: number,
  difference: Pascal,
  viscosity: PascalSecond,
) => cubicMetrePerSecond((width * gap ** 3 * difference) / (12 * viscosity * length));

/**
 * Slip over the end faces of both gears.
 *
 *     Q = 2 k h³ (s³ + (1−s)³) p / (12 μ)
 *
 * @param clearance  h, total of both faces [m]
 * @param faceRatio  k, width over length of the path across one gear's face
 * @param split      s, share of h on the lesser face, 0 to 0.5
 * @source           slot-flow
 */
export const endSlip = (
  clearance: Metre,
  faceRatio: number,
  split: number,
  pressure: Pascal,
  viscosity: PascalSecond,
): CubicMetrePerSecond =>
  slotFlow(2 * faceRatio * (split ** 3 + (1 - split) ** 3), clearance, 1, pressure, viscosity);

/**
 * Slip over the tooth tips of both gears, by pressure alone.
 *
 *     Q = 2 b t³ p / (12 μ l n)
 *
 * @param clearance  t, tip to body [m]
 * @param land       l, of one tip [m]
 * @param inSeries   n, tips that seal one behind the other
 * @param width      b, face width [m]
 * @source           slot-flow
 */
export const tipSlip = (
  clearance: Metre,
  land: Metre,
  inSeries: number,
  width: Metre,
  pressure: Pascal,
  viscosity: PascalSecond,
): CubicMetrePerSecond => slotFlow(2 * width, clearance, land * inSeries, pressure, viscosity);

/** What the moving tips of one gear carry back to the outlet: Q = b t U/2. @source slot-flow */
export const tipDrag = (width: Metre, clearance: Metre, speed: MetrePerSecond) =>
  cubicMetrePerSecond((width * clearance * speed) / 2);

/**
 * Flow between two parallel faces from one radius to another, over part of the circle.
 *
 *     Q = k π h³ Δp / (6 μ ln(r2/r1))
 *
 * @source massey-6-2
 */
export const radialFaceFlow = (
  share: number,
  gap: Metre,
  radiusRatio: number,
  difference: Pascal,
  viscosity: PascalSecond,
) => cubicMetrePerSecond((share * Math.PI * gap ** 3 * difference) / (6 * viscosity * Math.log(radiusRatio)));
