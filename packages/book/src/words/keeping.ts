import type { Book } from '../fold/book.ts';
import type { Astray } from '../keeping/astray.ts';
import type { Unclean } from '../keeping/cleaning.ts';
import type { OpenJoint } from '../keeping/joints.ts';
import type { OpeningCount } from '../keeping/openings.ts';
import { positionsOf } from '../sheet/places.ts';

/** `1 rag`, `3 rags`; tape stays tape. */
const counted = (n: number, by: string): string =>
  by === 'tape' ? `${n} of tape` : by === 'other' ? `${n} other` : `${n} ${by}${n === 1 ? '' : 's'}`;

/** `Gallery plugs: 11 plugs out, 10 back in: 1 is missing`. */
export function openingWords({ name, by, blocked, cleared, takenOutFirst }: OpeningCount): string {
  const off = Math.abs(blocked - cleared);
  const are = off === 1 ? 'is' : 'are';
  if (takenOutFirst)
    return `${name}: ${counted(cleared, by)} out, ${blocked} back in: ${off} ${are} ${blocked < cleared ? 'missing' : 'too many'}`;
  return `${name}: ${counted(blocked, by)} in, ${cleared} out: ${off} ${are} ${cleared < blocked ? 'still inside' : 'more than went in'}`;
}

const partName = (book: Book, id: string): string => book.parts.get(id)?.name ?? id;
const positionName = (book: Book, id: string): string =>
  (book.sheet ? positionsOf(book.sheet) : []).find((one) => one.id === id)?.name ?? id;

export function astrayWords(book: Book, { part, position, why }: Astray): string {
  const name = partName(book, part);
  switch (why.is) {
    case 'away': {
      const there = book.marks.size > 0 ? ownerOf(book, position) : undefined;
      return `${name} stands at ${positionName(book, position)} (${position})${there ? `, the place of ${there}` : ''}; it belongs at ${why.home}`;
    }
    case 'turned':
      return `${name} stands ${why.found}; it must stand ${why.wanted}`;
    case 'way-unsaid':
      return `${name}: which way round it stands was not said; it must stand ${why.wanted}`;
    case 'alone':
      return `${name} is fitted without ${partName(book, why.partner)}, with which it was made or run in`;
  }
}

/** Whose home a position is. */
function ownerOf(book: Book, position: string): string | undefined {
  const mark = [...book.marks.values()].find(({ body }) => body.home === position);
  return mark && partName(book, mark.body.part);
}

export const uncleanWords = ({ part, state, blasted, missing }: Unclean): string =>
  `${part.name}, ${state.what}: not proven clean, ${missing.join(', ')} still wanted${blasted ? '; it was blasted, and grit may be in every passage' : ''}`;

/** Common practice, no source. */
export const CLEANING_CAUTION =
  'Open every plug, wash, blow and look through each passage. Compressed air: eye shield, never at skin, keep others away. Solvents: good air, no flame, follow their sheet.';

const clock = (millis: number): string => new Date(millis).toISOString().replace('T', ' ').slice(0, 16);

export function jointWords({ name, state, curedAt, wet, product }: OpenJoint): string {
  const of = product === undefined ? '' : `, ${product}`;
  if (state !== 'curing') return `${name}: ${state}`;
  if (wet?.minutes !== undefined && wet.minutes > wet.allowed)
    return `${name}${of}: it has lain open for ${Math.round(wet.minutes)} min, ${wet.allowed} are allowed: clean it off and begin again`;
  if (wet) return `${name}${of}: wet, to be closed within ${wet.allowed} min of going on`;
  return `${name}${of}: curing${curedAt === undefined ? '; no time was said after which it is cured' : ` until ${clock(curedAt)} UTC`}`;
}
