import { type Entry, entryHash } from '@fettle/book';
import { sha256OfJson } from '@fettle/core';

/** The last entry of one device: through its `prev` it stands for all the device wrote before. */
export interface Head {
  readonly device: string;
  readonly n: number;
  readonly hash: string;
}

/**
 * What tells this ledger from any other: SHA-256 over the RFC 8785 form of the sorted hashes of the entries that no
 * other entry follows. One changed, added or torn-out entry gives another fingerprint.
 */
export function ledgerFingerprint(entries: readonly Entry[]): { fingerprint: string; heads: Head[] } {
  const followed = new Set(entries.map(({ device, prev }) => `${device}\n${prev}`));
  const heads = entries
    .map((entry) => ({ device: entry.device, n: entry.n, hash: entryHash(entry) }))
    .filter(({ device, hash }) => !followed.has(`${device}\n${hash}`))
    .sort((a, b) =>
      a.device < b.device ? -1 : a.device > b.device ? 1 : a.n - b.n || (a.hash < b.hash ? -1 : 1),
    );
  return { fingerprint: sha256OfJson(heads.map(({ hash }) => hash).sort()), heads };
}
