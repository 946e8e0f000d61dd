import type { Assessed, Assessment } from '../assess/assessment.ts';
import { type Further, furtherMoves } from '../assess/next-move-further.ts';
import type { Book } from '../fold/book.ts';
import { isMeantBy } from '../sheet/id-pattern.ts';
import { type Place, placeText, positionAt } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { firstReading, type TooCoarse } from './first-reading.ts';
import { minutesOf, PART_MINUTES } from './minutes.ts';
import { type Goal, orderOf, type Task } from './order.ts';

/** One reading of the day. */
export interface PlanStep {
  readonly characteristic: Characteristic;
  readonly place: Place;
  /** Type of instrument; absent for what is looked at. */
  readonly with?: string;
  /** Where another instrument than the usual one is meant, its name. */
  readonly instrument?: string;
  readonly why: 'unread' | 'undecided';
  readonly minutes: number;
  /** Of them, for getting instrument and part ready. */
  readonly setUp: number;
  /** From the start of the day [min]. */
  readonly at: number;
  /** What is decided, or likely is, once it is taken. */
  readonly decides: readonly { readonly judgement: Assessed; readonly chance: number }[];
}

/** What is open and not in the plan, and why. */
export interface LeftOpen {
  readonly judgement: Assessed;
  readonly why: 'does-not-matter' | 'nothing-owned-decides' | 'behind-a-closed-cover' | 'too-coarse';
  /** Where the usual instrument is too coarse for the limits, what would do. */
  readonly coarse?: TooCoarse;
  readonly further?: Further;
}

export interface ReadingPlan {
  readonly steps: readonly PlanStep[];
  readonly left: readonly LeftOpen[];
}

/** Chance that reading again, with both ways, settles witnesses that disagree; assumed. */
const SETTLES = 0.5;
/** Under this chance nobody would read again. */
const WORTH_READING = 0.02;
/** What a verdict is worth that no cover hides; each hour of reopening the cover adds one. Assumed. */
const OPEN_WORTH = 1;

/** A reading to be taken, and how long it takes. */
interface Wanted {
  readonly characteristic: Characteristic;
  readonly place: Place;
  readonly type: string | undefined;
  readonly instrument?: string;
  readonly minutes: number;
  readonly why: PlanStep['why'];
}

interface Open {
  readonly judgement: Assessed;
  readonly wanted: readonly Wanted[];
  readonly chance: number;
}

/** Everything that is open, in the order in which most is decided soonest; what does not matter is left out. */
export function readingPlan(book: Book, assessed: Assessment): ReadingPlan {
  const left: LeftOpen[] = [];
  const open: Open[] = [];
  for (const judgement of assessed.judgements) {
    const found = openOf(book, assessed, judgement);
    if (!found) continue;
    if ('why' in found) left.push(found);
    else open.push(found);
  }
  const tasks: Task[] = [];
  const wanted: Wanted[] = [];
  const known = new Map<string, number>();
  const goals = open.map(({ judgement, wanted: needs, chance }): Goal => {
    const indices = needs.map((one) => {
      const tool = one.instrument ?? one.type ?? '';
      const key = `${one.characteristic.id}@${placeText(one.place)}/${tool}`;
      const before = known.get(key);
      if (before !== undefined) return before;
      known.set(key, tasks.length);
      tasks.push({ minutes: one.minutes, tool, part: partOf(one) });
      wanted.push(one);
      return tasks.length - 1;
    });
    return { needs: [...new Set(indices)], worth: chance * worthOf(assessed, judgement) };
  });
  const typeOf = new Map(wanted.map((one) => [one.instrument ?? one.type ?? '', one.type]));
  const setUps = { tool: (tool: string) => minutesOf(typeOf.get(tool)).setUp, part: PART_MINUTES };
  const steps = orderOf(tasks, goals, setUps).map(({ task, at, setUp, meets }): PlanStep => {
    const { type, instrument, characteristic, place, why, minutes } = wanted[task]!;
    return {
      characteristic,
      place,
      ...(type !== undefined && { with: type }),
      ...(instrument !== undefined && { instrument }),
      why,
      minutes: minutes + setUp,
      setUp,
      at,
      decides: meets.map((g) => ({ judgement: open[g]!.judgement, chance: open[g]!.chance })),
    };
  });
  return { steps, left };
}

const partOf = ({ characteristic, place }: Wanted): string =>
  characteristic.position === undefined
    ? (characteristic.group ?? characteristic.id)
    : positionAt(characteristic.position, place);

/** Hours to reopen the dearest cover that hides it, and one more. */
function worthOf({ gates }: Assessment, { characteristic }: Assessed): number {
  const hours = gates
    .filter(({ cover }) => cover.hides.characteristics.some((one) => isMeantBy(one, characteristic.id)))
    .map(({ cover }) => cover.reopen_hours ?? 0);
  return OPEN_WORTH + Math.max(0, ...hours);
}

function openOf(book: Book, assessed: Assessment, judgement: Assessed): Open | LeftOpen | undefined {
  const { characteristic, status, next } = judgement;
  if (status !== 'missing' && status !== 'cannot-tell') return undefined;
  if (status === 'missing' && characteristic.optional === true) return undefined;
  const isHidden = assessed.gates.some(
    ({ closed, cover }) =>
      closed && cover.hides.characteristics.some((one) => isMeantBy(one, characteristic.id)),
  );
  if (isHidden) return { judgement, why: 'behind-a-closed-cover' };
  if (!next) return undefined;
  switch (next.move) {
    case 'does-not-matter':
      return { judgement, why: 'does-not-matter' };
    case 'look':
      return { judgement, wanted: [unread(book, characteristic, judgement.place)], chance: 1 };
    case 'measure': {
      const first = firstReading(book, judgement);
      if ('needed' in first) return { judgement, why: 'too-coarse', coarse: first };
      return {
        judgement,
        wanted: next.what.map((one) => ({
          ...unread(book, one.characteristic, one.place),
          ...(first.instead && { type: first.instead.body.type, instrument: first.instead.body.name }),
        })),
        chance: first.chance,
      };
    }
    case 'try-leaf': {
      const type = 'feeler leaves';
      const place = judgement.worstAt ?? judgement.place;
      const minutes = minutesOf(type).each * next.expectedTries;
      return {
        judgement,
        wanted: [
          {
            characteristic: next.characteristic,
            place,
            type,
            ...ownedOf(book, type),
            minutes,
            why: 'undecided',
          },
        ],
        chance: next.decides,
      };
    }
    case 'settle-disagreement':
      return { judgement, wanted: disputed(assessed, judgement), chance: SETTLES };
    default:
      return furtherOf(assessed, judgement);
  }
}

/** With the first owned of the type it is usually taken with. */
const unread = (book: Book, characteristic: Characteristic, place: Place): Wanted => {
  const type = characteristic.kind === 'seen' ? undefined : (characteristic.with ?? 'instrument');
  return {
    characteristic,
    place,
    type,
    ...ownedOf(book, type),
    minutes: minutesOf(type).each,
    why: 'unread',
  };
};

const ownedOf = (book: Book, type: string | undefined): { instrument?: string } => {
  const owned = [...book.instruments.values()].find(({ body }) => body.type === type);
  return owned ? { instrument: owned.body.name } : {};
};

/** What the witnesses disagree about, once more with both: of what is worked out from it, that which it rests on. */
const disputed = (
  { reckoning }: Assessment,
  { disputes, characteristic, worstAt, place }: Assessed,
): Wanted[] => {
  const own = { characteristic: characteristic.id, place: worstAt ?? place };
  return (disputes.length > 0 ? disputes : [own]).map((spot) => {
    const one = reckoning.characteristic(spot.characteristic);
    const type = one.with ?? 'instrument';
    return {
      characteristic: one,
      place: spot.place,
      type,
      ...ownedOf(reckoning.book, type),
      minutes: 2 * minutesOf(type).each,
      why: 'undecided',
    };
  });
};

/** With what is owned, if anything owned can decide: another instrument, or the same again. */
function furtherOf({ reckoning }: Assessment, judgement: Assessed): Open | LeftOpen {
  const further = furtherMoves(reckoning, judgement);
  const owned = further?.deciding.find((one) => one.owned);
  const again = further?.repeating;
  const isRepeated =
    !owned && again !== undefined && again.needed !== undefined && again.chance.decided > WORTH_READING;
  const way = owned ?? (isRepeated ? again : undefined);
  if (way) {
    const { characteristic, type, name, places, chance } = way;
    if (owned?.sizes) {
      const wanted = owned.sizes.map(
        (size): Wanted => ({
          characteristic: size.characteristic,
          place: size.place,
          type: size.type,
          instrument: size.name,
          minutes: minutesOf(size.type).each,
          why: 'undecided',
        }),
      );
      return { judgement, wanted, chance: chance.decided };
    }
    const wanted = places.map((place): Wanted => {
      const minutes = minutesOf(type).each;
      return { characteristic, place, type, instrument: name, minutes, why: 'undecided' };
    });
    return { judgement, wanted, chance: chance.decided };
  }
  return { judgement, why: 'nothing-owned-decides', ...(further && { further }) };
}
