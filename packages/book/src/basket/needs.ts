import type { Book } from '../fold/book.ts';
import { machiningKey, needKey, needOfPosition } from './need-name.ts';

/** Why something has to be had, with the entry that says so. */
type NeedReason =
  | { readonly by: 'decision'; readonly part: string; readonly entry: string }
  | { readonly by: 'offer'; readonly offer: string; readonly entry: string }
  | { readonly by: 'wish'; readonly why: string | undefined; readonly entry: string };

export interface Need {
  /** By which what can be bought is matched: `piston .030 over`. */
  readonly key: string;
  readonly name: string;
  readonly size?: string;
  /** Still to be bought. */
  readonly count: number;
  /** On order or here already. */
  readonly had: number;
  readonly reasons: readonly NeedReason[];
}

interface Gathered {
  key: string;
  name: string;
  size?: string;
  count: number;
  had: number;
  reasons: NeedReason[];
}

/** Where a part is fitted, or was when it came. */
export const positionOfPart = (book: Book, part: string): string | undefined =>
  [...book.positions.values()].find(({ now }) => now?.part === part)?.id ??
  [...book.positions.values()].find(({ asFound }) => asFound?.part === part)?.id;

/**
 * What has to be had: parts decided to be replaced, one for each position; parts decided to be machined; the repairs
 * of the plan that was taken; and what was wanted besides. A repair and a position of one name are one need.
 *
 * @param taken  ids of the repairs on offer that are to be done
 */
export function needsOf(book: Book, taken: readonly string[]): Need[] {
  const needs = new Map<string, Gathered>();
  const gather = (key: string, name: string, count: number, reason: NeedReason, size?: string): Gathered => {
    const found = needs.get(key) ?? { key, name, count: 0, had: 0, reasons: [], ...(size && { size }) };
    needs.set(key, { ...found, count: found.count + count, reasons: [...found.reasons, reason] });
    return needs.get(key)!;
  };
  for (const { entry, body } of book.dispositions.values()) {
    if (body.decision === 'reuse') continue;
    const reason: NeedReason = { by: 'decision', part: body.part, entry: entry.id };
    const part = book.parts.get(body.part);
    if (body.decision === 'machine') {
      const need = gather(
        machiningKey(body.part),
        `${part?.name ?? body.part}, machined`,
        1,
        reason,
        body.size,
      );
      // A part that came back machined since is had.
      if (cameBack(book, body.part)) need.had += 1;
      continue;
    }
    const position = positionOfPart(book, body.part);
    const at = position === undefined ? undefined : needOfPosition(book.sheet, position);
    const key = needKey(at?.need ?? body.part, body.size);
    const need = gather(key, `${at?.name ?? part?.name ?? body.part}`, 1, reason, body.size);
    // Another part in its place is had.
    if (position !== undefined && (book.positions.get(position)?.now?.part ?? body.part) !== body.part)
      need.had += 1;
  }
  for (const id of taken) {
    const offer = book.offers.get(id);
    if (!offer) continue;
    const reason: NeedReason = { by: 'offer', offer: id, entry: offer.entry.id };
    // The plan asks for it once, whatever the parts ask for under the same name.
    const need = gather(id, offer.body.name, needs.has(id) ? 0 : 1, reason);
    if (isHad(book, id)) need.had = need.count;
  }
  for (const { entry, body } of book.wants.values())
    if (body.count > 0)
      gather(body.need, body.name, body.count, { by: 'wish', why: body.why, entry: entry.id });
  for (const { body } of book.orders) {
    if (body.supply === undefined) continue;
    for (const [key, each] of broughtBy(book, body.supply)) {
      const need = needs.get(key);
      if (need) need.had = Math.min(need.count, need.had + each * (body.count ?? 1));
    }
  }
  return [...needs.values()].map(({ count, ...need }) => ({ ...need, count: Math.max(0, count - need.had) }));
}

/** Ordered, or done: every part it machines that was decided to be machined came back so. */
export function isHad(book: Book, offer: string): boolean {
  if (book.orders.some(({ body }) => body.supply === offer)) return true;
  const brings = broughtBy(book, offer);
  const machined = [...book.dispositions.values()].filter(
    ({ body }) => body.decision === 'machine' && brings.has(machiningKey(body.part)),
  );
  return machined.length > 0 && machined.every(({ body }) => cameBack(book, body.part));
}

const cameBack = (book: Book, id: string): boolean => {
  const part = book.parts.get(id);
  return part !== undefined && part.states.length > 1 && part.current.condition === 'machined';
};

/** What one of a supply or a repair on offer brings, by need. */
export function broughtBy(book: Book, id: string): ReadonlyMap<string, number> {
  const supply = book.supplies.get(id)?.body;
  const offer = book.offers.get(id)?.body;
  const brings = new Map<string, number>();
  for (const { need, count, size } of supply?.covers ?? offer?.covers ?? [])
    brings.set(needKey(need, size), count);
  if (supply || !offer) return brings;
  brings.set(id, 1);
  const restoredAt = new Map<string, Set<string>>();
  for (const one of offer.restores) {
    const pattern = book.characteristics.get(one.characteristic)?.position;
    if (pattern === undefined) continue;
    // What is brought to another size is machined, unless it is said to be replaced; without either nobody knows.
    const machines = offer.way === 'machine' || (offer.way === undefined && one.size !== undefined);
    for (const { id: position } of book.positions.values()) {
      const at = needOfPosition(book.sheet, position);
      const isMeant =
        at && matches(pattern, position, at.place, one.at ?? {}) && book.positions.get(position)?.asFound;
      if (!isMeant) continue;
      const here = book.positions.get(position)?.now?.part ?? isMeant.part;
      for (const fitted of new Set([isMeant.part, here]))
        if (machines && sizeAgrees(book, fitted, one.size)) brings.set(machiningKey(fitted), 1);
      if (offer.way !== 'replace') continue;
      const key = needKey(at.need, one.size);
      restoredAt.set(key, (restoredAt.get(key) ?? new Set()).add(position));
    }
  }
  for (const [key, positions] of restoredAt) if (!brings.has(key)) brings.set(key, positions.size);
  return brings;
}

/** Whether a characteristic's position pattern means this position, at what was restored. */
const matches = (
  pattern: string,
  position: string,
  place: Readonly<Record<string, string>>,
  at: Readonly<Record<string, string>>,
): boolean =>
  pattern.replace(/\{([^{}]*)\}/g, (whole, axis: string) => at[axis] ?? place[axis] ?? whole) === position;

/** Machining to another size than was decided is not what was decided. */
function sizeAgrees(book: Book, part: string, size: string | undefined): boolean {
  const decided = book.dispositions.get(part)?.body;
  return size === undefined || decided?.size === undefined || decided.size === size;
}
