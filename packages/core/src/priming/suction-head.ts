import { type KilogramPerCubicMetre, type Metre, metre, type Pascal, pascal } from '../units/si.ts';
import { liftOf } from './dry-lift.ts';

/**
 * Net positive suction head that a liquid has left at a pump's inlet.
 *
 *     NPSH = (p_surface − p_vapour)/(ρ g) − z − h_loss
 *
 * @param surface  p_surface, absolute, on the liquid [Pa]
 * @param vapour   p_vapour, absolute; of lubricating oil it is nothing [Pa]
 * @param lift     z, of the inlet above the surface [m]
 * @param loss     h_loss, of pipe and strainer [m]
 * @source crane-tp-410
 */
export const netSuctionHead = (
  surface: Pascal,
  vapour: Pascal,
  density: KilogramPerCubicMetre,
  lift: Metre,
  loss: Metre,
): Metre => metre(liftOf(pascal(surface - vapour), density) - lift - loss);
