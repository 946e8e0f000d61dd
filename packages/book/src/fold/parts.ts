import type { Entry } from '../ledger/entry.ts';
import { isBefore } from '../ledger/ledger.ts';
import type { Fitted, Part, PartState, Position, Written } from './book.ts';
import { type Conflict, decided } from './decision.ts';

type Answer = ReturnType<typeof decided<Entry>>;

function grouped<T>(items: readonly T[], key: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(key(item), [...(groups.get(key(item)) ?? []), item]);
  return groups;
}

function foldedPart(
  entered: readonly Written<'part-entered'>[],
  reworks: readonly Written<'part-reworked'>[],
  standing: Written<'part-reworked'> | undefined,
): Part {
  const first = entered[0]!;
  const states: PartState[] = [
    ...entered.map(({ entry, body }) => ({
      id: entry.id,
      condition: body.condition,
      ...(body.size !== undefined && { size: body.size }),
      what: body.condition === 'used' ? 'as it came' : body.condition,
    })),
    ...reworks.map(({ entry, body }) => ({
      id: entry.id,
      condition: body.condition,
      ...(body.size !== undefined && { size: body.size }),
      what: body.what,
    })),
  ];
  const current = states.find((state) => state.id === standing?.entry.id) ?? states[0]!;
  return { id: first.body.part, name: first.body.name, states, current };
}

/**
 * The fitting a position began with. Where writers who did not know of each other each entered a first one, and not
 * the same, it is the one entered by somebody who had seen them all; until then nobody knows.
 *
 * @param fittings  of parts, in folding order
 */
function firstFitting(fittings: readonly Written<'part-fitted'>[]): Written<'part-fitted'> | undefined {
  const begun = fittings.filter((a) => !fittings.some((b) => isBefore(b.entry, a.entry)));
  if (new Set(begun.map(({ body }) => body.part)).size <= 1) return begun[0];
  return firstFitting(fittings.filter((later) => begun.every((one) => isBefore(one.entry, later.entry))));
}

/**
 * The parts with their states, and what is fitted where.
 *
 * Fitting answers two questions at once, what is in this position and where is this part, so a part counts as
 * fitted only where both answers agree: fitting a second part displaces the first, and fitting a part
 * elsewhere empties the place it came from.
 */
export function foldedParts(
  entered: readonly Written<'part-entered'>[],
  reworks: readonly Written<'part-reworked'>[],
  standingReworks: ReadonlyMap<string, Written<'part-reworked'>>,
  fittings: readonly Written<'part-fitted'>[],
): { parts: Map<string, Part>; positions: Map<string, Position>; conflicts: Conflict[] } {
  const parts = new Map<string, Part>();
  const reworksByPart = grouped(reworks, ({ body }) => body.part);
  for (const [id, entries] of grouped(entered, ({ body }) => body.part))
    parts.set(id, foldedPart(entries, reworksByPart.get(id) ?? [], standingReworks.get(id)));

  const conflicts: Conflict[] = [];
  const settle = (about: string, candidates: readonly Written<'part-fitted'>[]): Answer => {
    const answer = decided(
      about,
      candidates.map(({ entry }) => entry),
    );
    if (answer.conflict) conflicts.push(answer.conflict);
    return answer;
  };
  const byPosition = grouped(fittings, ({ body }) => body.position);
  const whereIs = new Map<string, Answer>();
  for (const [part, own] of grouped(fittings, ({ body }) => body.part ?? ''))
    if (part !== '') whereIs.set(part, settle(`part-fitted of ${part}`, own));

  const positions = new Map<string, Position>();
  for (const [id, own] of byPosition) {
    const answer = settle(`part-fitted at ${id}`, own);
    const standing = own.find(({ entry }) => entry === answer.winner);
    const first = firstFitting(own.filter(({ body }) => body.part !== null));
    const fitted = (written: Written<'part-fitted'>, state: string): Fitted => ({
      part: written.body.part!,
      state,
      ...(written.body.way !== undefined && { way: written.body.way }),
      entry: written.entry.id,
    });
    const part = parts.get(standing?.body.part ?? '');
    const stillHere = part !== undefined && whereIs.get(part.id)?.winner?.body.position === id;
    const firstPart = parts.get(first?.body.part ?? '');
    positions.set(id, {
      id,
      ...(standing && part && stillHere && { now: fitted(standing, part.current.id) }),
      ...(first && firstPart && { asFound: fitted(first, firstPart.states[0]!.id) }),
    });
  }
  return { parts, positions, conflicts };
}
