import { canonicalJson } from '@fettle/core';
import { type Entry, entryHash } from './entry.ts';

/** The order of folding: by tick, then by id. Clocks never decide. */
export function inOrder(a: Entry, b: Entry): number {
  return a.tick - b.tick || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

/**
 * A is before B when B's writer had folded A. Otherwise neither knew of the other, or B is the earlier.
 * What was folded has a lower tick; of two branches of one device, or of a made-up `seen`, neither is before the other
 * against the order of folding, so that "before" never runs in a circle.
 */
export function isBefore(a: Entry, b: Entry): boolean {
  if (inOrder(a, b) >= 0) return false;
  if (a.device === b.device) return a.n < b.n;
  return (b.seen[a.device] ?? 0) >= a.n;
}

/** Two entries that claim the same page of the same device. Both are kept and shown. */
export interface Fork {
  readonly device: string;
  readonly n: number;
  readonly entries: readonly string[];
}

/** A chain that does not hold: a page missing, or a page whose predecessor is not the one it was written after. */
export interface BrokenLink {
  readonly entry: string;
  readonly device: string;
  readonly n: number;
  readonly why: 'predecessor-missing' | 'predecessor-differs';
}

/** Whether two entries say the same, to the last letter. */
export const sameEntry = (a: Entry, b: Entry): boolean => a === b || canonicalJson(a) === canonicalJson(b);

/**
 * The union of two piles of entries, each once, in folding order. Two different entries under one id are nobody's
 * honest work; both stay, in an order that depends on what they say and not on which came first, so that every device
 * has the same.
 */
export function merged(a: readonly Entry[], b: readonly Entry[]): Entry[] {
  const byId = new Map<string, Entry[]>();
  for (const entry of [...a, ...b]) {
    const known = byId.get(entry.id);
    if (!known) byId.set(entry.id, [entry]);
    else if (!known.some((one) => sameEntry(one, entry))) {
      known.push(entry);
      known.sort((x, y) => (canonicalJson(x) < canonicalJson(y) ? -1 : 1));
    }
  }
  return [...byId.values()].sort((x, y) => inOrder(x[0]!, y[0]!)).flat();
}

/** Different entries under one id: something wrote over what stood there. The first is folded, the others shown. */
export interface IdReused {
  readonly id: string;
  readonly folded: Entry;
  readonly others: readonly Entry[];
}

/** A merged pile with one entry an id, and what else claims an id. */
export function parted(entries: readonly Entry[]): { ledger: Entry[]; reused: IdReused[] } {
  const ledger: Entry[] = [];
  const others = new Map<string, Entry[]>();
  for (const entry of entries) {
    if (ledger.at(-1)?.id === entry.id) others.set(entry.id, [...(others.get(entry.id) ?? []), entry]);
    else ledger.push(entry);
  }
  const reused = ledger.flatMap((folded) => {
    const rest = others.get(folded.id);
    return rest ? [{ id: folded.id, folded, others: rest }] : [];
  });
  return { ledger, reused };
}

/** Hashes of entries met before: an entry is never changed, and a job is folded again with each new one. */
const hashes = new WeakMap<Entry, string>();

function hashOf(entry: Entry): string {
  const known = hashes.get(entry);
  if (known !== undefined) return known;
  const hash = entryHash(entry);
  hashes.set(entry, hash);
  return hash;
}

/** What each device's pages say about themselves: forks and broken links. */
export function chainFaults(entries: readonly Entry[]): { forks: Fork[]; broken: BrokenLink[] } {
  const pages = new Map<string, Entry[]>();
  for (const entry of entries) {
    const page = `${entry.device}\n${entry.n}`;
    pages.set(page, [...(pages.get(page) ?? []), entry]);
  }
  const forks: Fork[] = [];
  const broken: BrokenLink[] = [];
  for (const page of pages.values()) {
    const { device, n } = page[0]!;
    const ids = [...new Set(page.map((entry) => entry.id))].sort();
    if (ids.length > 1) forks.push({ device, n, entries: ids });
    const before = n === 1 ? undefined : pages.get(`${device}\n${n - 1}`);
    for (const entry of page) {
      if (n === 1) {
        if (entry.prev !== null) broken.push({ entry: entry.id, device, n, why: 'predecessor-differs' });
      } else if (!before) broken.push({ entry: entry.id, device, n, why: 'predecessor-missing' });
      else if (!before.some((earlier) => hashOf(earlier) === entry.prev))
        broken.push({ entry: entry.id, device, n, why: 'predecessor-differs' });
    }
  }
  return { forks, broken };
}
