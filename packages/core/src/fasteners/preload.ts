import {
  type Metre,
  type Newton,
  type NewtonMetre,
  newton,
  newtonMetre,
  type Pascal,
  pascal,
} from '../units/si.ts';
import { pitchDiameter, stressArea, stressDiameter, type Thread } from './thread.ts';

/** Friction in the thread and under the face that turns. */
export interface Friction {
  /** μG. */
  readonly thread: number;
  /** μK. */
  readonly bearing: number;
  /** D_Km, mean diameter of the face that turns [m]. */
  readonly bearingDiameter: Metre;
}

/** Flank angle's share: 1/(2 cos 30°), printed as 0.58. */
const FLANK = 1 / (2 * Math.cos(Math.PI / 6));

/**
 * Preload by the short form, F = T/(K d) [N].
 *
 * @param factor  K, of the surfaces as they are
 * @source shigley-fasteners
 */
export function preloadByNutFactor(torque: NewtonMetre, factor: number, major: Metre): Newton {
  return newton(torque / (factor * major));
}

/** Torque for a preload by the short form, T = K F d [N·m]. */
export function torqueByNutFactor(preload: Newton, factor: number, major: Metre): NewtonMetre {
  return newtonMetre(factor * preload * major);
}

/** Lever of the thread: stretch P/2π and flank friction μG d2/(2 cos 30°) [m]. */
function threadLever(thread: Thread, friction: number): number {
  return thread.pitch / (2 * Math.PI) + FLANK * pitchDiameter(thread) * friction;
}

/**
 * Torque for a preload by the long form, T = F [P/2π + μG d2/(2 cos 30°) + μK D_Km/2] [N·m].
 *
 * @source vdi-2230
 */
export function torqueByFriction(preload: Newton, thread: Thread, friction: Friction): NewtonMetre {
  return newtonMetre(
    preload * (threadLever(thread, friction.thread) + (friction.bearing * friction.bearingDiameter) / 2),
  );
}

/** Preload from a torque by the long form [N]. @source vdi-2230 */
export function preloadByFriction(torque: NewtonMetre, thread: Thread, friction: Friction): Newton {
  return newton(torque / torqueByFriction(newton(1), thread, friction));
}

/** Torque the shank feels while tightening, M_G = F [P/2π + μG d2/(2 cos 30°)] [N·m]. */
function threadTorque(preload: Newton, thread: Thread, friction: number): NewtonMetre {
  return newtonMetre(preload * threadLever(thread, friction));
}

/**
 * Stress of stretch and twist together while tightening, σred = √(σ² + 3τ²), with σ = F/A and τ = M_G/W for
 * the fully plastic section W = π ds³/12 (the 2003 edition; the older π ds³/16 gives more).
 * For a Unified thread ds is the diameter of its own stress area.
 *
 * @source vdi-2230
 */
export function vonMisesStress(preload: Newton, thread: Thread, threadFriction: number): Pascal {
  const tensile = preload / stressArea(thread);
  const shear =
    threadTorque(preload, thread, threadFriction) / ((Math.PI * stressDiameter(thread) ** 3) / 12);
  return pascal(Math.sqrt(tensile ** 2 + 3 * shear ** 2));
}

/**
 * Preload at which that combined stress reaches a limit, usually 0.9 of the yield [N].
 *
 * @source vdi-2230
 */
export function preloadAtStress(limit: Pascal, thread: Thread, threadFriction: number): Newton {
  return newton(limit / vonMisesStress(newton(1), thread, threadFriction));
}

/**
 * Friction alike in thread and under the head, from torque and preload measured together:
 * μ = (T/F − P/2π)/(d2/(2 cos 30°) + D_Km/2).
 *
 * @source iso-16047
 */
export function totalFriction(
  torque: NewtonMetre,
  preload: Newton,
  thread: Thread,
  bearingDiameter: Metre,
): number {
  return (
    (torque / preload - thread.pitch / (2 * Math.PI)) / (FLANK * pitchDiameter(thread) + bearingDiameter / 2)
  );
}
