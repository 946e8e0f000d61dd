import type { Book } from '../fold/book.ts';
import { partsAstray } from '../keeping/astray.ts';
import { uncleanParts } from '../keeping/cleaning.ts';
import { isHiddenBy } from '../keeping/hidden-by.ts';
import { type OpenJoint, openJoints } from '../keeping/joints.ts';
import { openingsOff } from '../keeping/openings.ts';
import { isMeantBy } from '../sheet/id-pattern.ts';
import { placesOf, positionAt } from '../sheet/places.ts';
import type { Cover } from '../sheet/sheet.ts';
import { astrayWords, jointWords, openingWords, uncleanWords } from '../words/keeping.ts';
import type { Reason } from './reason.ts';

/**
 * Why parts, openings and joints hold a cover: counts that do not match, a part away from its home, its partner or its
 * way round, a machined part not proven clean, a joint not tight or not cured.
 */
export function keepingReasons(book: Book, cover: Cover, now: number | undefined): Reason[] {
  if (
    book.openings.length + book.marks.size + book.joints.size === 0 &&
    ![...book.parts.values()].some(({ states }) => states.length > 1)
  )
    return [];
  const clock = now === undefined ? {} : { now };
  const hidden = hiddenPositions(book, cover);
  const named = new Set((book.sheet?.covers ?? []).flatMap((one) => [...hiddenPositions(book, one)]));
  // What no cover is known to hide, none may be closed over.
  const isUnder = (position: string): boolean => hidden.has(position) || !named.has(position);
  const fitted = new Set(
    [...book.positions.values()].flatMap(({ id, now }) => (now && isUnder(id) ? [now.part] : [])),
  );
  return [
    ...openingsOff(book)
      .filter(({ opening }) => isHiddenBy(book, cover, 'openings', opening))
      .map((off): Reason => ({ code: 'opening/count', about: off.opening, message: openingWords(off) })),
    ...partsAstray(book)
      .filter(({ position }) => isUnder(position))
      .map(
        (astray): Reason => ({ code: 'part/astray', about: astray.part, message: astrayWords(book, astray) }),
      ),
    ...uncleanParts(book)
      .filter(({ part }) => fitted.has(part.id))
      .map(
        (one): Reason => ({ code: 'cleaning/not-proven', about: one.part.id, message: uncleanWords(one) }),
      ),
    ...openJoints(book, now, cover)
      .filter((joint) => holds(joint) && isHiddenBy(book, cover, 'fasteners', joint.joint))
      .map(
        (joint): Reason => ({ code: 'joint/open', about: joint.joint, message: jointWords(joint, clock) }),
      ),
  ];
}

/**
 * A wet sealant wants its cover closed in time, and asks nothing more once it is; without a clock nobody can tell
 * whether there is time left. Anything else that is open holds, and so does a sealant that waiting will not mend.
 */
const holds = ({ sealant }: OpenJoint): boolean =>
  sealant?.wet === undefined ||
  sealant.fault !== undefined ||
  (!sealant.closedInTime && sealant.wet.minutes === undefined);

/** Positions of everything a cover hides. */
function hiddenPositions(book: Book, cover: Cover): Set<string> {
  const sheet = book.sheet ?? { axes: {} };
  const positions = new Set<string>();
  for (const characteristic of book.characteristics.values()) {
    if (!cover.hides.characteristics.some((pattern) => isMeantBy(pattern, characteristic.id))) continue;
    for (const pattern of [characteristic.position, ...(characteristic.mates ?? [])]) {
      if (pattern === undefined) continue;
      if (!pattern.includes('{')) positions.add(pattern);
      else for (const place of placesOf(sheet, characteristic)) positions.add(positionAt(pattern, place));
    }
  }
  return positions;
}
