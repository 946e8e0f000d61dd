import type { Entry } from '../ledger/entry.ts';
import type { Book } from './book.ts';

/**
 * What a failed check of an instrument puts in doubt: everything taken with it since its last good check, and on until
 * the next good one. A later good check does not heal what lies before it. What was read with a gauge that was set in
 * the instrument goes with it.
 *
 * @param ledger  what stands, in the order of folding
 * @returns       the failed check by what it puts in doubt, both by their entries
 */
export function reopenedBy(
  ledger: readonly Entry[],
  instruments: Book['instruments'],
): ReadonlyMap<string, string> {
  const since = new Map<unknown, string[]>();
  const failed = new Map<unknown, string>();
  const reopened = new Map<string, string>();
  for (const { id, kind, body } of ledger) {
    const { instrument } = body;
    if (kind === 'instrument-checked') {
      if (body.good) failed.delete(instrument);
      else {
        failed.set(instrument, id);
        for (const taken of since.get(instrument) ?? []) if (!reopened.has(taken)) reopened.set(taken, id);
      }
      since.delete(instrument);
    } else if (kind === 'reading' || kind === 'gauge-reading' || kind === 'torque-pass') {
      for (const one of [instrument, instruments.get(String(instrument))?.body.set_in]) {
        if (one === undefined) continue;
        const check = failed.get(one);
        if (check === undefined) {
          const list = since.get(one) ?? [];
          list.push(id);
          since.set(one, list);
        } else if (!reopened.has(id)) reopened.set(id, check);
      }
    }
  }
  return reopened;
}
