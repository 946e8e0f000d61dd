import {
  type Assessed,
  type Characteristic,
  type Member,
  type Place,
  placeAlong,
  placesOf,
  placeText,
  readAgain,
  type Status,
} from '@fettle/book';
import { computed } from '@preact/signals';
import { allJudged, assessed, book, judgementsNow } from './job.ts';

/** One place of one characteristic: what the bench goes through one by one. */
export interface Step {
  readonly key: string;
  readonly characteristic: Characteristic;
  readonly place: Place;
}

export const keyOf = (id: string, place: Place): string => `${id}@${placeText(place)}`;

/** What only follows from other readings is not read itself, unless the sheet says with what. */
export const isRead = ({ relation, with: instrument, read_as }: Characteristic): boolean =>
  relation === undefined || instrument !== undefined || read_as !== undefined;

/** Every place that can be read, in the order of the sheet, then of the bench. */
export const steps = computed<readonly Step[]>(() => {
  const { sheet, characteristics } = book.value;
  return [...characteristics.values()].filter(isRead).flatMap((characteristic) =>
    placesOf(sheet ?? { axes: {} }, characteristic).map((place) => ({
      key: keyOf(characteristic.id, place),
      characteristic,
      place,
    })),
  );
});

const judgementIndex = computed(() => {
  const index = new Map<string, Assessed>();
  for (const judgement of assessed.value.judgements)
    index.set(keyOf(judgement.characteristic.id, judgement.place), judgement);
  return index;
});

/** The judgement a place belongs to: its own, or that of all places judged together. */
export function judgementAt(characteristic: Characteristic, place: Place): Assessed | undefined {
  const over = characteristic.reduce?.over ?? [];
  const axes = characteristic.places.filter((axis) => !over.includes(axis));
  const key = keyOf(characteristic.id, placeAlong(place, axes));
  if (allJudged.value) return judgementIndex.value.get(key);
  return judgementsNow(characteristic.id).find((one) => keyOf(characteristic.id, one.place) === key);
}

export const memberAt = (judgement: Assessed | undefined, place: Place): Member | undefined =>
  judgement?.members.find((member) => placeText(member.place) === placeText(place)) ??
  (judgement?.members.length === 1 ? judgement.members[0] : undefined);

/** How one place stands by itself. */
export function statusAt(judgement: Assessed | undefined, place: Place): Status {
  if (!judgement) return 'missing';
  const member = memberAt(judgement, place);
  if (!member) return judgement.status;
  if (member.known.operand.kind === 'missing') return 'missing';
  const verdict = judgement.governing && member.verdicts[judgement.governing]?.verdict;
  return verdict ?? (judgement.governing ? 'missing' : 'no-limits');
}

/** What still wants doing, in bench order: places not read, then those where nobody can tell and something would. */
export const wanted = computed<{ readonly unread: readonly Step[]; readonly undecided: readonly Step[] }>(
  () => {
    const all = new Map(steps.value.map((step) => [step.key, step]));
    const unread = new Set<string>();
    const undecided = new Set<string>();
    for (const judgement of assessed.value.judgements) {
      const { characteristic, status } = judgement;
      if (status === 'missing' && characteristic.optional !== true)
        for (const one of judgement.missing) unread.add(keyOf(one.characteristic, one.place));
    }
    for (const { characteristic, place, atHand } of readAgain(book.value, assessed.value.judgements))
      if (atHand) undecided.add(keyOf(characteristic.id, place));
    const inOrder = (keys: Set<string>): Step[] => [...all.values()].filter(({ key }) => keys.has(key));
    return { unread: inOrder(unread), undecided: inOrder(undecided) };
  },
);

/** The first place that wants something after a given one, going round. */
export function nextWanted(after?: string): Step | undefined {
  const { unread, undecided } = wanted.value;
  const keys = new Set([...unread, ...undecided].map(({ key }) => key));
  const all = steps.value;
  const from = after === undefined ? -1 : all.findIndex(({ key }) => key === after);
  const round = [...all.slice(from + 1), ...all.slice(0, Math.max(0, from))];
  return round.find(({ key }) => keys.has(key));
}

/** The neighbours of a place on the bench, read or not. */
export function neighbours(key: string): { readonly before?: Step; readonly after?: Step } {
  const at = steps.value.findIndex((step) => step.key === key);
  const [before, after] = [steps.value[at - 1], steps.value[at + 1]];
  return at < 0 ? {} : { ...(before && { before }), ...(after && { after }) };
}
