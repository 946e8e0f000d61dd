import { failed, type Outcome, ok, sha256OfJson, uuidV7 } from '@fettle/core';
import * as z from 'zod';
import { issuesOf } from '../issues-of-zod.ts';
import { BODIES, BODY_VERSION, type Body, isKnownKind, type Kind } from './bodies.ts';

/**
 * The envelope around every entry.
 * `prev` chains one device's entries, so that a torn-out page is noticed; `seen` says what its writer knew.
 */
export const envelopeSchema = z.strictObject({
  id: z.uuid().describe('UUID version 7'),
  job: z.uuid(),
  device: z.string().min(1).max(100).describe('one writer: a data directory or a browser profile'),
  n: z.int().positive().describe('1 for the device’s first entry in this job'),
  prev: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .nullable()
    .describe('SHA-256 of the RFC 8785 form of this device’s entry n − 1; null for its first'),
  seen: z.record(z.string(), z.int().nonnegative()).describe('per device, the last n its writer had folded'),
  tick: z.int().positive().describe('1 + the greatest tick its writer had seen'),
  at: z.iso.datetime({ offset: true }).describe('the device’s clock, for people; it never decides'),
  who: z.string().min(1).max(200),
  kind: z.string().min(1).max(60),
  v: z.int().positive(),
  body: z.record(z.string(), z.unknown()),
});

/** Any entry, of a kind known or not. */
export type Entry = z.infer<typeof envelopeSchema>;

/** An entry whose body has been read by its schema. */
export type KnownEntry<K extends Kind = Kind> = K extends Kind
  ? Omit<Entry, 'kind' | 'body'> & { readonly kind: K; readonly body: Body<K> }
  : never;

/** The chain link of RFC 8785 and SHA-256 that the next entry of this device carries as `prev`. */
export const entryHash = (entry: Entry): string => sha256OfJson(entry);

/** The name of anything kept by its content: a spec sheet, for one. SHA-256 of its RFC 8785 form. */
export const contentHash = (value: unknown): string => sha256OfJson(value);

/** A fresh entry id from a clock reading [ms] and ten random bytes. */
export const newEntryId = (millis: number, random: Uint8Array): string => uuidV7(millis, random);

export const isKnown = (entry: Entry): entry is Entry & { kind: Kind } =>
  isKnownKind(entry.kind) && entry.v === BODY_VERSION;

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

/** The body with its defaults filled in; the entry must have come through `readEntry`. */
export function bodyOf<K extends Kind>(entry: Entry & { kind: K }): Body<K> {
  return BODIES[entry.kind].parse(entry.body) as Body<K>;
}
