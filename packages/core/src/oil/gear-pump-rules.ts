import { type CubicMetre, cubicMetre } from '../units/si.ts';
import type { PumpGears } from './gear-pump.ts';

// Rules of thumb for the displacement of a gear pump, each named for what it measures. They stand here to show
// how far they are off, not to be used: `gearPumpDisplacement` needs nothing that they do not.

/** Root circle of standard teeth lies 1.25 modules inside the pitch circle. */
const DEDENDUM = 1.25;

/** (π/2) b (d_a² − a²): ignores that the contact point wanders; about 7 % high. @source involute-displacement */
export const centreDistanceRule = ({ faceWidth, tipDiameter, centreDistance }: PumpGears): CubicMetre =>
  cubicMetre((Math.PI / 2) * faceWidth * (tipDiameter ** 2 - centreDistance ** 2));

/** 2 π m² z b: about 3 % low. @source involute-displacement */
export const moduleRule = ({ faceWidth, module, teeth }: PumpGears): CubicMetre =>
  cubicMetre(2 * Math.PI * module ** 2 * teeth * faceWidth);

/** (π/4)(d_a² − d_f²) b, the ring from tip to root: about 7 % high. @source involute-displacement */
export const rootRingRule = ({ faceWidth, tipDiameter, module, teeth }: PumpGears): CubicMetre =>
  cubicMetre((Math.PI / 4) * faceWidth * (tipDiameter ** 2 - (module * (teeth - 2 * DEDENDUM)) ** 2));
