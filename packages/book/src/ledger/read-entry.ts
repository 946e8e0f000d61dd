import { failed, type Outcome, ok } from '@fettle/core';
import { issuesOf } from '../issues-of-zod.ts';
import { BODIES } from './bodies.ts';
import { type Entry, isKnown } from './entry.ts';
import { envelopeSchema } from './envelope.ts';

/**
 * An entry as it came from outside: a known kind is held to its schema, an unknown kind or version is kept as it is.
 *
 * @returns the entry exactly as given (no default is filled in: its hash must not change), or what is wrong with it
 */
export function readEntry(value: unknown): Outcome<Entry> {
  const envelope = envelopeSchema.safeParse(value);
  if (!envelope.success) return failed(...issuesOf(envelope.error, value, 'entry/malformed'));
  const entry = envelope.data;
  if (isKnown(entry)) {
    const body = BODIES[entry.kind].safeParse(entry.body);
    if (!body.success)
      return failed(
        ...issuesOf(body.error, entry.body, 'entry/malformed-body').map((issue) => ({
          ...issue,
          at: `/body${issue.at}`,
        })),
      );
  }
  return ok(entry);
}
