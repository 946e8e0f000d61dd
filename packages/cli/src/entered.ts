import type { Book } from '@fettle/book';
import { type Issue, issue, type Outcome, ok, parseQuantity, type QuantityKind } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Bench } from './bench.ts';
import type { Reply } from './reply.ts';

/** Opens the job, makes the draft, writes it, and says a sentence. */
export async function entered(
  bench: Outcome<Bench>,
  draft: (bench: Bench) => Outcome<Draft>,
  text: string | ((book: Book) => string),
): Promise<Outcome<Reply>> {
  if (!bench.ok) return bench;
  const made = draft(bench.value);
  if (!made.ok) return made;
  const written = await bench.value.write([made.value]);
  if (!written.ok) return written;
  return ok({ json: written.value[0], text: typeof text === 'string' ? text : text(bench.value.book()) });
}

/** Fields that were said; an entry has no empty ones. */
export const present = <T extends Record<string, unknown>>(fields: T) =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };

/** Everything said must read as what it is. */
export function quantities(said: readonly (readonly [string, string | undefined, QuantityKind])[]): Issue[] {
  return said.flatMap(([at, text, kind]) => {
    const read = text === undefined ? undefined : parseQuantity(text, kind);
    return read && !read.ok ? read.issues.map((one) => ({ ...one, at })) : [];
  });
}

/** A number of 0 or more written plainly, or nothing: no blank, no hexadecimal, no infinity. */
export const plainNumber = (text: string): number | undefined =>
  /^\d+(\.\d+)?$/.test(text.trim()) ? Number(text) : undefined;

/** One that cannot be below zero, or at it. */
export function overZero(at: string, text: string, kind: QuantityKind, orZero = false): Issue[] {
  const read = parseQuantity(text, kind);
  if (!read.ok || read.value.value > 0 || (orZero && read.value.value === 0)) return [];
  const least = orZero ? '0 or more' : 'over 0';
  return [
    issue(
      'number/out-of-range',
      at,
      text,
      `a ${kind} ${least}`,
      `A ${kind} of ${text} is none. Give one ${least}.`,
    ),
  ];
}
