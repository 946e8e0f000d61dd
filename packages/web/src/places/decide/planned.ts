import { type Basket, type Book, basketOf, type PlannedRepairs, plannedRepairs } from '@fettle/book';
import { useEffect, useState } from 'preact/hooks';
import { assessed, book } from '../../state/job.ts';

/** The plan waits until whoever taps has seen what was tapped [ms]. */
const AT_REST = 60;

interface Planned {
  readonly repairs: PlannedRepairs;
  readonly basket: Basket;
}

const kept = new WeakMap<Book, Planned>();

/** What the plan takes and the basket that follows, worked out once a change of the book; undefined until it is. */
export function usePlanned(): Planned | undefined {
  const now = book.value;
  const judged = assessed.value;
  const [found, setFound] = useState<Planned | undefined>(kept.get(now));
  useEffect(() => {
    const known = kept.get(now);
    if (known) {
      setFound(known);
      return undefined;
    }
    const waiting = setTimeout(() => {
      const repairs = plannedRepairs(now, judged, { now: Date.now() });
      const planned = { repairs, basket: basketOf(now, { taken: repairs.taken, now: Date.now() }) };
      kept.set(now, planned);
      setFound(planned);
    }, AT_REST);
    return () => clearTimeout(waiting);
  }, [now, judged]);
  return found;
}
