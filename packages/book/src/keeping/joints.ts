import type { Book, Written } from '../fold/book.ts';
import { isMeantBy } from '../sheet/id-pattern.ts';
import { type Place, placeText } from '../sheet/places.ts';
import type { Cover } from '../sheet/sheet.ts';
import { type Sealant, sealantMoments, sealantOf } from './sealant.ts';

/** A joint that cannot be relied on yet. */
export interface OpenJoint {
  readonly joint: string;
  readonly name: string;
  readonly place: Place;
  readonly state: 'loose' | 'dry' | 'finger-tight' | 'curing';
  /** Of one that cures. */
  readonly sealant?: Sealant;
  readonly product?: string;
  readonly entry: string;
}

/**
 * Joints left loose, dry, finger-tight or curing.
 *
 * @param now    Unix time [ms]; without it nobody can tell whether what cures is cured, and it counts as open
 * @param under  the cover that is asked about: it alone closes a joint that no cover names
 */
export function openJoints(book: Book, now?: number, under?: Cover): OpenJoint[] {
  return [...book.joints.values()].flatMap((said) => {
    const open = stateOf(book, said, under, now);
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
  book: Book,
  said: Written<'joint-state'>,
  under: Cover | undefined,
  now: number | undefined,
): Pick<OpenJoint, 'state' | 'sealant'> | undefined {
  const { state, joint } = said.body;
  if (state === 'tight' || state === 'cured') return undefined;
  if (state !== 'curing') return { state };
  const all = book.sheet?.covers ?? [];
  const named = all.filter(({ hides }) => hides.fasteners.some((pattern) => isMeantBy(pattern, joint)));
  const sealant = sealantOf(book, said, named.length > 0 ? named : under ? [under] : all, now);
  return sealant && { state, sealant };
}

/** Unix times, in order, at which a joint ceases to be what it was without anybody touching it. Between two no gate changes. */
export const jointMoments = (book: Book): number[] =>
  [...book.joints.values()]
    .flatMap((said) => (said.body.state === 'curing' ? sealantMoments(said) : []))
    .sort((a, b) => a - b);
