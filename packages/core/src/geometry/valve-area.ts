import { type Metre, metre, type Radian, type SquareMetre, squareMetre } from '../units/si.ts';

/** A poppet valve on its seat; lengths in metres. */
export interface Poppet {
  readonly head: Metre;
  readonly seatWidth: Metre;
  /** From the plane of the head [rad]. */
  readonly seatAngle: Radian;
}

/** Lift up to which the seat's own cone is the narrowest, w/(sin β cos β) [m]. @source heywood-1988 */
export function coneLift({ seatWidth, seatAngle }: Poppet): Metre {
  return metre(seatWidth / (Math.sin(seatAngle) * Math.cos(seatAngle)));
}

/** Opening of the port past the stem, π(Dp² − Ds²)/4 [m²]. @source heywood-1988 */
export function portArea(port: Metre, stem: Metre): SquareMetre {
  return squareMetre((Math.PI / 4) * (port ** 2 - stem ** 2));
}

/** Slanted gap past the seat, π Dm √((L − w tan β)² + w²), Dm = Dv − w [m²]. */
function slantedArea({ head, seatWidth, seatAngle }: Poppet, lift: Metre): number {
  return Math.PI * (head - seatWidth) * Math.hypot(lift - seatWidth * Math.tan(seatAngle), seatWidth);
}

/** Lift from which the port past the stem is the narrowest [m]. @source heywood-1988 */
export function portLift(valve: Poppet, port: Metre, stem: Metre): Metre {
  const slant = portArea(port, stem) / (Math.PI * (valve.head - valve.seatWidth));
  return metre(Math.sqrt(slant ** 2 - valve.seatWidth ** 2) + valve.seatWidth * Math.tan(valve.seatAngle));
}

/**
 * Narrowest opening at a lift [m²], in three stages: the seat's cone
 * π L cos β (Dv − 2w + (L/2) sin 2β), the slanted gap, the port (when it is known).
 *
 * @source heywood-1988
 */
export function valveArea(
  valve: Poppet,
  lift: Metre,
  throat?: { readonly port: Metre; readonly stem: Metre },
): SquareMetre {
  const { head, seatWidth, seatAngle } = valve;
  if (lift < coneLift(valve)) {
    const cone = head - 2 * seatWidth + (lift / 2) * Math.sin(2 * seatAngle);
    return squareMetre(Math.PI * lift * Math.cos(seatAngle) * cone);
  }
  const slanted = slantedArea(valve, lift);
  return squareMetre(throat ? Math.min(slanted, portArea(throat.port, throat.stem)) : slanted);
}
