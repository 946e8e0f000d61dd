import { inOrder } from '../ledger/ledger.ts';
import type { Written } from './book.ts';
import type { Undoing } from './undoing.ts';

/** What the ledger says that may have undone a joint, in its order. Which joint it touches, the sheet knows. */
export function undoingsOf(said: {
  readonly joints: readonly Written<'joint-state'>[];
  readonly openings: readonly Written<'cover-opened'>[];
  readonly fittings: readonly Written<'part-fitted'>[];
  readonly reworks: readonly Written<'part-reworked'>[];
}): Undoing[] {
  const loosened = said.joints.flatMap(({ entry, body }): Undoing[] => {
    const { joint, state, place = {} } = body;
    return state === 'loose' || state === 'dry' || state === 'finger-tight'
      ? [{ what: 'loosened', entry, joint, place, state }]
      : [];
  });
  const opened = said.openings.map(
    ({ entry, body }): Undoing => ({ what: 'opened', entry, cover: body.cover }),
  );
  const moved = [...said.fittings, ...said.reworks].sort((a, b) => inOrder(a.entry, b.entry));
  return [...loosened, ...opened, ...partsMoved(moved)].sort((a, b) => inOrder(a.entry, b.entry));
}

/** A part that comes into a position displaces what stood there, and leaves the one it stood in. */
function partsMoved(moved: readonly (Written<'part-fitted'> | Written<'part-reworked'>)[]): Undoing[] {
  const stands = new Map<string, string>();
  return moved.map(({ entry, body }): Undoing => {
    const part = body.part ?? undefined;
    const before = part === undefined ? undefined : stands.get(part);
    const from = before === undefined ? [] : [before];
    const named = part === undefined ? {} : { part };
    if (!('position' in body)) return { what: 'reworked', entry, ...named, positions: from };
    for (const [other, position] of stands) if (position === body.position) stands.delete(other);
    if (part !== undefined) stands.set(part, body.position);
    return { what: 'refitted', entry, ...named, positions: [...new Set([body.position, ...from])] };
  });
}
