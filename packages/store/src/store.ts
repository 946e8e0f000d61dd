import type { Entry } from '@fettle/book';
import type { Outcome } from './outcome.ts';

/** A job the store holds. Its title and opening are in its entries, for the fold to find. */
export interface JobCount {
  readonly job: string;
  readonly entries: number;
}

/** A spec sheet under the hash of its RFC 8785 form. */
export interface Sheet {
  readonly hash: string;
  readonly json: unknown;
}

export interface Photo {
  /** Media type, such as `image/jpeg`. */
  readonly media: string;
  readonly bytes: Uint8Array;
}

/** A photo that says which bytes it claims to be: SHA-256 in lower-case hexadecimal. */
export interface NamedPhoto extends Photo {
  readonly hash: string;
}

/** What is kept together or not at all. */
export interface Parcel {
  /** As they came from outside: each is read before it is kept. */
  readonly entries?: readonly unknown[];
  readonly sheets?: readonly Sheet[];
  readonly photos?: readonly NamedPhoto[];
}

/** Ids of the entries of a parcel, by what became of them, in the parcel's order. */
export interface Appended {
  readonly added: readonly string[];
  /** Already there, with the same content. */
  readonly known: readonly string[];
  /** Of the added: those whose id another entry of the job has, with other content. Both are kept. */
  readonly reused: readonly string[];
}

interface EntriesAfter {
  /** In the order in which this store came by them; the fold has its own order. */
  readonly entries: readonly Entry[];
  /** Sequence number to ask after next time. This store's own: it means nothing in another. */
  readonly last: number;
}

/**
 * Where ledgers, spec sheets and photos are kept. Nothing is ever changed or deleted.
 * One contract suite (contract.ts) says what every store does, whatever database is under it.
 */
export interface Store {
  jobs(): Promise<Outcome<readonly JobCount[]>>;
  /**
   * All of the parcel or, when anything is wrong with it, nothing. Idempotent by content: the same entry again
   * is known; another under an id of the job is kept beside it, for the fold to show.
   */
  append(parcel: Parcel): Promise<Outcome<Appended>>;
  entries(job: string, from?: { readonly after?: number }): Promise<Outcome<EntriesAfter>>;
  putSheet(hash: string, json: unknown): Promise<Outcome<string>>;
  /** `undefined` when no such sheet is here. */
  sheet(hash: string): Promise<Outcome<unknown>>;
  /** @returns the hash under which the bytes are kept; the media type first given to them stays */
  putPhoto(bytes: Uint8Array, media: string): Promise<Outcome<string>>;
  photo(hash: string): Promise<Outcome<Photo | undefined>>;
  close(): Promise<void>;
}
