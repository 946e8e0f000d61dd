import { type Metre, metre } from '../units/si.ts';

/**
 * Stem clearance from the rock of a valve in its guide.
 *
 *              ↔ rock, total indicator movement
 *              │
 *              │ h
 *       ┌──┐   │   ┌──┐  ┬
 *       │  │  ╱    │  │  │
 *       │  │ ╱     │  │  │ L     tilted one way the stem touches the guide at the top on
 *       │  │╱      │  │  │       one side and at the bottom on the other
 *       └──┘       └──┘  ┴
 *
 * With a diametral clearance c the stem's axis can lie c/2 either side of the guide's at each end, so it tilts by at
 * most c/L. Half way down it stays on the axis; at h above the guide, L/2 + h from there, it moves (c/L)(L/2 + h) to
 * either side. The indicator sees both:
 *
 *     rock = c (1 + 2 h/L)        c = rock · L/(L + 2 h)
 *
 * A guide worn to a bell at its ends rocks more than its clearance half way down says; a worn stem does so too.
 *
 * @param rock    total movement [m]
 * @param height  h, of the indicator above the guide [m]
 * @param length  L, of the guide [m]
 * @returns       c, on the diameter [m]
 * @source        rocking-stem; tilts of a few thousandths, where an angle is its tangent
 */
export const clearanceFromRock = (rock: Metre, height: Metre, length: Metre): Metre =>
  metre((rock * length) / (length + 2 * height));

/** The rock that a clearance gives: `clearanceFromRock` the other way round. */
export const rockFromClearance = (clearance: Metre, height: Metre, length: Metre): Metre =>
  metre(clearance * (1 + (2 * height) / length));
