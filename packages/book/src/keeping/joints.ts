import { parseQuantity } from '@fettle/core';
import type { Book, Written } from '../fold/book.ts';
import { type Place, placeText } from '../sheet/places.ts';

/** A joint that cannot be relied on yet. */
export interface OpenJoint {
  readonly joint: string;
  readonly name: string;
  readonly place: Place;
  readonly state: 'loose' | 'dry' | 'finger-tight' | 'curing';
  /** Unix time at which it will be cured [ms]; absent where no time of curing was said. */
  readonly curedAt?: number;
  /** Of a sealant that must be closed on while it is wet: minutes it has lain, where the time is known, and may. */
  readonly wet?: { readonly minutes?: number; readonly allowed: number };
  readonly product?: string;
  readonly entry: string;
}

const MINUTE = 60_000;

const millis = (said: string | undefined): number | undefined => {
  const read = said === undefined ? undefined : parseQuantity(said, 'time');
  return read?.ok ? read.value.value * 1000 : undefined;
};

/**
 * Joints left loose, dry, finger-tight or curing.
 *
 * @param now  Unix time [ms]; without it nobody can tell whether what cures is cured, and it counts as open
 */
export function openJoints(book: Book, now?: number): OpenJoint[] {
  return [...book.joints.values()].flatMap((said) => {
    const open = stateOf(said, now);
    if (!open) return [];
    const { body, entry } = said;
    const fastener = book.sheet?.fasteners.find(({ id }) => id === body.joint)?.name;
    const place = body.place ?? {};
    const at = placeText(place);
    return [
      {
        joint: body.joint,
        name: [fastener ?? body.name ?? body.joint.replaceAll('-', ' '), at].filter(Boolean).join(', '),
        place,
        ...open,
        ...(body.product !== undefined && { product: body.product }),
        entry: entry.id,
      },
    ];
  });
}

function stateOf(
  { entry, body }: Written<'joint-state'>,
  now: number | undefined,
): Pick<OpenJoint, 'state' | 'curedAt' | 'wet'> | undefined {
  if (body.state === 'tight' || body.state === 'cured') return undefined;
  if (body.state !== 'curing') return { state: body.state };
  const started = Date.parse(body.started ?? entry.at);
  const within = millis(body.close_within);
  const cures = millis(body.cures_after);
  const curedAt = cures === undefined ? undefined : started + cures;
  if (now !== undefined && curedAt !== undefined && now >= curedAt) return undefined;
  return {
    state: 'curing',
    ...(curedAt !== undefined && { curedAt }),
    ...(within !== undefined && {
      wet: { allowed: within / MINUTE, ...(now !== undefined && { minutes: (now - started) / MINUTE }) },
    }),
  };
}
