import type { Book, Written } from '../fold/book.ts';
import type { GateSeen } from '../ledger/bodies.ts';
import { isBefore } from '../ledger/ledger.ts';
import { isMeantBy } from '../sheet/id-pattern.ts';
import { placeText } from '../sheet/places.ts';
import type { Cover } from '../sheet/sheet.ts';
import { placeInWords } from '../words/position.ts';
import { torqueDoubtWords } from '../words/torque.ts';
import type { Judgement } from './judgement.ts';
import { keepingReasons } from './keeping-reasons.ts';
import { NO_ANSWER } from './known.ts';
import type { Reason } from './reason.ts';
import type { TorqueAssessment } from './torque.ts';

export interface Gate {
  readonly cover: Cover;
  readonly state: 'open' | 'held';
  readonly reasons: readonly Reason[];
  /** The entries the gate rests on. */
  readonly entries: readonly string[];
  readonly closed: boolean;
  readonly last?: Written<'cover-closed'> | Written<'cover-opened'>;
  /** Who went past the hold since the cover was last open, and why. */
  readonly passed?: Written<'hold-passed'>;
  /** Reasons of today that were not known when the cover was closed or the hold passed. */
  readonly sinceThen: readonly Reason[];
}

const isHidden = (cover: Cover, id: string): boolean =>
  cover.hides.characteristics.some((pattern) => isMeantBy(pattern, id));

function reasonsOf(book: Book, judgement: Judgement): Reason[] {
  const { characteristic, status, place } = judgement;
  if (status === 'in' || status === 'no-limits') return [];
  if (status === 'missing' && characteristic.optional) return [];
  const at = placeText(place);
  const about = at === '' ? characteristic.id : `${characteristic.id}@${at}`;
  const where = placeInWords(characteristic.places, place);
  const name = where === '' ? characteristic.name : `${characteristic.name}, ${where}`;
  const without = judgement.cautions.find(({ code }) => code === NO_ANSWER);
  if (status === 'missing' && without)
    return [{ code: 'reading/missing', about, message: `${name}: cannot be worked out` }];
  if (status === 'missing') {
    // A derived characteristic waits for its inputs; they say themselves that they are missing.
    if (
      judgement.missing.every((one) => one.characteristic !== characteristic.id) &&
      judgement.missing.length > 0
    )
      return [
        {
          code: 'reading/missing',
          about,
          message: `${name}: cannot be worked out until ${waitedFor(book, judgement)} is read`,
        },
      ];
    return [
      {
        code: 'reading/missing',
        about,
        message: `${name}: not ${characteristic.kind === 'seen' ? 'seen' : 'read'}`,
      },
    ];
  }
  if (status === 'out') return [{ code: 'verdict/out', about, message: `${name}: out` }];
  return [
    {
      code: 'verdict/cannot-tell',
      about,
      message: `${name}: cannot tell${judgement.again.length > 0 ? ', to be taken again' : ''}`,
    },
  ];
}

/** What it waits for, by the names people use; each once. */
const waitedFor = (book: Book, { missing }: Judgement): string =>
  [...new Set(missing.map(({ characteristic: id }) => book.characteristics.get(id)?.name ?? id))].join(', ');

function torqueReasons(book: Book, torque: TorqueAssessment): Reason[] {
  const { fastener, advice, proofs } = torque;
  const reasons: Reason[] = [];
  if (advice.ok && advice.value.advice === 'refused')
    reasons.push({
      code: 'torque/refused',
      about: fastener.id,
      message: `${fastener.name}: the torque on the sheet is past proof load`,
    });
  if (proofs.some(({ pass }) => pass === undefined))
    reasons.push({
      code: 'torque/not-logged',
      about: fastener.id,
      message: `${fastener.name}: torque not logged`,
    });
  for (const [why, message] of torqueDoubtWords(book, torque))
    reasons.push({ code: `torque/${why}`, about: fastener.id, message });
  return reasons;
}

/** Nobody knows which of two entries under one id is true; a job's opening decides nothing, and cannot be struck. */
function reusedReasons({ reused, struck }: Book): Reason[] {
  const open = reused.filter(({ id, folded }) => !struck.has(id) && folded.kind !== 'job-opened');
  if (open.length === 0) return [];
  return [
    {
      code: 'ledger/id-reused',
      about: open.map(({ id }) => id).join(' '),
      message: `${open.length === 1 ? 'An entry says' : `${open.length} entries say`} one thing here and another there, under one id: strike and enter anew`,
    },
  ];
}

/** Whether a cover may go on, from everything it is about to hide. @param now  Unix time [ms], for what cures */
export function gateOf(
  book: Book,
  cover: Cover,
  judgements: readonly Judgement[],
  torques: readonly TorqueAssessment[],
  now?: number,
): Gate {
  const hidden = judgements.filter(({ characteristic }) => isHidden(cover, characteristic.id));
  const fasteners = torques.filter(({ fastener }) =>
    cover.hides.fasteners.some((f) => isMeantBy(f, fastener.id)),
  );
  const reasons: Reason[] = [
    ...book.conflicts.map((conflict) => ({
      code: 'ledger/conflict' as const,
      about: conflict.about,
      message: `Two devices disagree about ${conflict.about}: strike one, or decide again`,
    })),
    ...reusedReasons(book),
    ...hidden.flatMap((judgement) => reasonsOf(book, judgement)),
    ...fasteners.flatMap((torque) => torqueReasons(book, torque)),
    ...keepingReasons(book, cover, now),
  ];
  const entries = [
    ...new Set([
      ...hidden.flatMap((judgement) => judgement.entries),
      ...fasteners.flatMap(({ passes }) => passes.map(({ entry }) => entry.id)),
      ...book.torqueDecisions
        .filter(({ body }) =>
          fasteners.some(({ passes }) => passes.some(({ entry }) => body.passes.includes(entry.id))),
        )
        .map(({ entry }) => entry.id),
    ]),
  ];
  const record = book.covers.get(cover.id);
  const closed = record?.closed ?? false;
  const opened = record?.lastOpened?.entry;
  const passed = record?.holdsPassed.filter(({ entry }) => !opened || isBefore(opened, entry)).at(-1);
  const then = [passed?.body.gate, closed ? closingGate(record?.last) : undefined].filter(
    (gate) => gate !== undefined,
  );
  return {
    cover,
    state: reasons.length === 0 ? 'open' : 'held',
    reasons,
    entries,
    closed,
    ...(record?.last && { last: record.last }),
    ...(passed && { passed }),
    sinceThen:
      then.length > 0 ? reasons.filter((reason) => !then.some((gate) => knownThen(gate, reason))) : [],
  };
}

function closingGate(last: Gate['last']): GateSeen | undefined {
  return last && 'gate' in last.body ? last.body.gate : undefined;
}

const knownThen = (then: GateSeen, reason: Reason): boolean =>
  then.reasons.some(({ code, about }) => code === reason.code && about === reason.about);

/** The gate as an entry carries it. */
export const gateAsSeen = (gate: Gate): GateSeen => ({
  state: gate.state,
  reasons: gate.reasons.map((reason) => ({ ...reason })),
  entries: [...gate.entries],
});
