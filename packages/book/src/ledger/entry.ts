import { sha256OfJson, uuidV7 } from '@fettle/core';
import type * as z from 'zod';
import type { Body, Kind } from './bodies.ts';
import { filledBody, isKnownKind } from './body-defaults.ts';
import type { envelopeSchema } from './envelope.ts';

// What every fold needs of an entry, without the schemas: those are loaded where entries come from outside.

/** The one version of every kind so far. A changed body becomes version 2 beside it; version 1 is read for ever. */
export const BODY_VERSION = 1;

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

/** The body with its defaults filled in; the entry must have come through `readEntry`. */
export const bodyOf = <K extends Kind>(entry: Entry & { kind: K }): Body<K> =>
  filledBody(entry.kind, entry.body);
