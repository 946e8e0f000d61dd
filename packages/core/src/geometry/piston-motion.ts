import {
  type Metre,
  type MetrePerSecond,
  type MetrePerSecondSquared,
  metre,
  metrePerSecond,
  metrePerSecondSquared,
  type Radian,
  type RadianPerSecond,
  radian,
} from '../units/si.ts';

/**
 * A slider-crank. The offset of the pin (or of the bore axis, the other way) is positive towards the side
 * the crankpin moves to after top dead centre. |offset| + r must stay under the rod length.
 */
export interface SliderCrank {
  /** r, half of the stroke of the centred mechanism [m]. */
  readonly crankRadius: Metre;
  /** l, between centres [m]. */
  readonly rod: Metre;
  /** d [m]. */
  readonly offset: Metre;
}

/**
 * Distance of the piston from its highest place [m]:
 * x = √((l + r)² − d²) − r cos θ − √(l² − (r sin θ − d)²), θ from top dead centre of the centred mechanism.
 *
 * @source heywood-1988
 */
export function distanceFromTop({ crankRadius: r, rod: l, offset: d }: SliderCrank, angle: Radian): Metre {
  const side = r * Math.sin(angle) - d;
  return metre(Math.sqrt((l + r) ** 2 - d ** 2) - r * Math.cos(angle) - Math.sqrt(l ** 2 - side ** 2));
}

/** Speed of the piston, dx/dt, positive away from the top [m/s]. @source heywood-1988 */
export function pistonVelocity(
  { crankRadius: r, rod: l, offset: d }: SliderCrank,
  angle: Radian,
  speed: RadianPerSecond,
): MetrePerSecond {
  const side = r * Math.sin(angle) - d;
  const along = Math.sqrt(l ** 2 - side ** 2);
  return metrePerSecond(speed * (r * Math.sin(angle) + (side * r * Math.cos(angle)) / along));
}

/** Acceleration of the piston, d²x/dt² at steady speed, positive away from the top [m/s²]. @source heywood-1988 */
export function pistonAcceleration(
  { crankRadius: r, rod: l, offset: d }: SliderCrank,
  angle: Radian,
  speed: RadianPerSecond,
): MetrePerSecondSquared {
  const side = r * Math.sin(angle) - d;
  const along = Math.sqrt(l ** 2 - side ** 2);
  const slide = r * Math.cos(angle);
  const bend = (slide ** 2 - side * r * Math.sin(angle)) / along + (side * slide) ** 2 / along ** 3;
  return metrePerSecondSquared(speed ** 2 * (slide + bend));
}

/** Crank angles of the highest and lowest place [rad]: asin(d/(l + r)) and π + asin(d/(l − r)). */
export function deadCentres({ crankRadius: r, rod: l, offset: d }: SliderCrank): {
  readonly top: Radian;
  readonly bottom: Radian;
} {
  return { top: radian(Math.asin(d / (l + r))), bottom: radian(Math.PI + Math.asin(d / (l - r))) };
}

/** Stroke the piston really makes, √((l + r)² − d²) − √((l − r)² − d²): a little over 2r with an offset [m]. */
export function pistonTravel({ crankRadius: r, rod: l, offset: d }: SliderCrank): Metre {
  return metre(Math.sqrt((l + r) ** 2 - d ** 2) - Math.sqrt((l - r) ** 2 - d ** 2));
}

/** Crank angle, going down, at half stroke of a centred mechanism: cos θ = r/(2l) [rad]. */
export function angleAtHalfStroke({ crankRadius: r, rod: l }: SliderCrank): Radian {
  return radian(Math.acos(r / (2 * l)));
}

/** Mean piston speed, 2 S n with n in turns a second [m/s]. */
export function meanPistonSpeed(stroke: Metre, speed: RadianPerSecond): MetrePerSecond {
  return metrePerSecond((stroke * speed) / Math.PI);
}
