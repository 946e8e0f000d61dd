import type { Book } from '../fold/book.ts';
import type { Astray } from '../keeping/astray.ts';
import type { Unclean } from '../keeping/cleaning.ts';
import type { OpenJoint } from '../keeping/joints.ts';
import type { OpeningCount } from '../keeping/openings.ts';
import type { Sealant } from '../keeping/sealant.ts';
import { positionsOf } from '../sheet/places.ts';
import { momentWords, spanWords } from './clock.ts';
import { positionWords } from './position.ts';

/** `1 rag`, `3 rags`; tape stays tape. */
export const counted = (n: number, by: string): string =>
  by === 'tape' ? `${n} of tape` : by === 'other' ? `${n} other` : `${n} ${by}${n === 1 ? '' : 's'}`;

/** `11 plugs out, 10 back in: 1 is missing`; what matches says so. */
export function openingBalance({ by, blocked, cleared, takenOutFirst }: Omit<OpeningCount, 'name'>): string {
  const off = Math.abs(blocked - cleared);
  const are = off === 1 ? 'is' : 'are';
  const went = takenOutFirst
    ? `${counted(cleared, by)} out, ${blocked} back in`
    : `${counted(blocked, by)} in, ${cleared} out`;
  if (off === 0) return `${went}: the counts match`;
  if (takenOutFirst) return `${went}: ${off} ${are} ${blocked < cleared ? 'missing' : 'too many'}`;
  return `${went}: ${off} ${are} ${cleared < blocked ? 'still inside' : 'more than went in'}`;
}

/** `Gallery plugs: 11 plugs out, 10 back in: 1 is missing`. */
export const openingWords = (count: OpeningCount): string => `${count.name}: ${openingBalance(count)}`;

const partName = (book: Book, id: string): string => book.parts.get(id)?.name ?? id;
function positionName(book: Book, id: string): string {
  const known = (book.sheet ? positionsOf(book.sheet) : []).find((one) => one.id === id);
  return known ? positionWords(known) : id;
}

export function astrayWords(book: Book, { part, position, why }: Astray): string {
  const name = partName(book, part);
  switch (why.is) {
    case 'away': {
      const there = book.marks.size > 0 ? ownerOf(book, position) : undefined;
      return `${name} stands at ${positionName(book, position)}${there ? `, the place of ${there}` : ''}; it belongs at ${positionName(book, why.home)}`;
    }
    case 'turned':
      return `${name} stands ${why.found}; it must stand ${why.wanted}`;
    case 'way-unsaid':
      return `${name}: which way round it stands was not said; it must stand ${why.wanted}`;
    case 'alone':
      return `${name} is fitted without ${partName(book, why.partner)}, with which it was made or run in`;
    case 'apart': {
      const belongs = why.wanted === undefined ? '' : `; that belongs at ${positionName(book, why.wanted)}`;
      return `${name} stands at ${positionName(book, position)} without ${partName(book, why.partner)} beside it, which stands at ${positionName(book, why.at)}${belongs}`;
    }
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

const MINUTE = 60_000;

/** By which clock a joint's times are said. */
export interface Clock {
  /** Unix time [ms]; without it nothing is said of what is left. */
  readonly now?: number;
  /** IANA name; the world's time without one. */
  readonly zone?: string;
}

const AGAIN = 'clean it off and begin again';

export const jointWords = (joint: OpenJoint, clock: Clock = {}): string =>
  `${joint.name}${joint.product === undefined ? '' : `, ${joint.product}`}: ${jointStanding(joint, clock)}`;

/** `finger-tight`; `curing until Tue 6 Jan 2026, 08:00, 20 h 40 min to go`: how a joint stands, without its name. */
export const jointStanding = ({ state, sealant }: OpenJoint, clock: Clock = {}): string =>
  sealant ? sealantWords(sealant, clock) : state;

function sealantWords(
  { fault, wet, startedAt, curedAt, closedInTime }: Sealant,
  { now, zone }: Clock,
): string {
  const allowed = spanWords((wet?.allowed ?? 0) * MINUTE);
  switch (fault) {
    case 'lain-open':
      return `it has lain open for ${spanWords((wet?.minutes ?? 0) * MINUTE)}, ${allowed} are allowed: ${AGAIN}`;
    case 'closed-late':
      return `its cover went on later than the ${allowed} it may lie open: ${AGAIN}`;
    case 'opened-since':
      return `its cover came off again: ${AGAIN}`;
    case 'starts-later':
      return 'it is said to have gone on at a time that is still to come. Strike it, and say when it did';
    case 'unreadable':
      return 'the times said for it do not read. Strike it, and say them as "24 h" or "10 min"';
    default: {
      if (wet && !closedInTime)
        return `wet, to be closed within ${allowed} of going on${wet.minutes === undefined ? '' : `, ${spanWords((wet.allowed - wet.minutes) * MINUTE)} left`}`;
      const since = startedAt === undefined || now === undefined ? '' : ` for ${spanWords(now - startedAt)}`;
      const closed = closedInTime ? 'closed wet, ' : '';
      if (curedAt === undefined) return `${closed}curing${since}; no time was said after which it is cured`;
      const left = now === undefined ? '' : `, ${spanWords(curedAt - now)} to go`;
      return `${closed}curing until ${momentWords(curedAt, zone)}${left}`;
    }
  }
}
