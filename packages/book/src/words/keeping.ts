import type { Book } from '../fold/book.ts';
import type { Astray } from '../keeping/astray.ts';
import type { Unclean } from '../keeping/cleaning.ts';
import type { OpenJoint } from '../keeping/joints.ts';
import type { OpeningCount } from '../keeping/openings.ts';
import type { Sealant } from '../keeping/sealant.ts';
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

const AGAIN = 'clean it off and begin again';

export function jointWords({ name, state, sealant, product }: OpenJoint): string {
  const of = product === undefined ? '' : `, ${product}`;
  if (!sealant) return `${name}: ${state}`;
  return `${name}${of}: ${sealantWords(sealant)}`;
}

function sealantWords({ fault, wet, curedAt, closedInTime }: Sealant): string {
  switch (fault) {
    case 'lain-open':
      return `it has lain open for ${minutesWords(wet?.minutes ?? 0)}, ${wet?.allowed} min are allowed: ${AGAIN}`;
    case 'closed-late':
      return `its cover went on later than the ${wet?.allowed} min it may lie open: ${AGAIN}`;
    case 'opened-since':
      return `its cover came off again: ${AGAIN}`;
    case 'starts-later':
      return 'it is said to have gone on at a time that is still to come. Strike it, and say when it did';
    case 'unreadable':
      return 'the times said for it do not read. Strike it, and say them as "24 h" or "10 min"';
    default:
      if (wet && !closedInTime) return `wet, to be closed within ${wet.allowed} min of going on`;
      return `curing${curedAt === undefined ? '; no time was said after which it is cured' : ` until ${clock(curedAt)} UTC`}`;
  }
}

/** `25 min`, `3 h`, `2 days`: nobody counts minutes past two hours. */
const minutesWords = (minutes: number): string =>
  minutes < 120
    ? `${Math.round(minutes)} min`
    : minutes < 48 * 60
      ? `${Math.round(minutes / 60)} h`
      : `${Math.round(minutes / 1440)} days`;
