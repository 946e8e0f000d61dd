import type { Entry } from '../ledger/entry.ts';
import { isBefore } from '../ledger/ledger.ts';

/** A strike without effect, shown so that nobody believes it worked. */
export interface IdleStrike {
  readonly strike: string;
  readonly target: string;
  readonly why: 'target-not-here' | 'target-not-seen' | 'opening-cannot-be-struck';
}

export interface Strikes {
  /** Ids of entries struck while at least one strike of them is itself unstruck. */
  readonly struck: ReadonlySet<string>;
  readonly idle: readonly IdleStrike[];
}

/**
 * Which entries are struck.
 *
 * A strike takes effect only on what its writer had seen, so every strike comes later in folding order than its
 * target: going backwards, a strike is settled before what it strikes is looked at.
 *
 * @param entries  in folding order
 */
export function strikesOf(entries: readonly Entry[]): Strikes {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const struck = new Set<string>();
  const idle: IdleStrike[] = [];
  for (let i = entries.length - 1; i >= 0; i--) {
    const strike = entries[i]!;
    if (strike.kind !== 'strike' || strike.v !== 1 || struck.has(strike.id)) continue;
    const target = String(strike.body.entry);
    const entry = byId.get(target);
    if (!entry) idle.push({ strike: strike.id, target, why: 'target-not-here' });
    else if (entry.kind === 'job-opened')
      idle.push({ strike: strike.id, target, why: 'opening-cannot-be-struck' });
    else if (!isBefore(entry, strike)) idle.push({ strike: strike.id, target, why: 'target-not-seen' });
    else struck.add(target);
  }
  return { struck, idle: idle.reverse() };
}
