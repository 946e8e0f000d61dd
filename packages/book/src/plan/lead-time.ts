const DAYS: Readonly<Record<string, number>> = { d: 1, day: 1, w: 7, wk: 7, week: 7, month: 30 };
const NUMBERS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
] as const;

/**
 * Days of a time as people say it, at the beginning of a text: `2 weeks`, `10 days`, `seven weeks, before the summer`.
 * A month is taken for 30 days.
 */
export function daysOf(text: string): number | undefined {
  const said = /^\s*(\d+(?:\.\d+)?|[a-z]+)\s*(d|day|w|wk|week|month)s?\b/i.exec(text);
  if (!said) return undefined;
  const word = said[1]!.toLowerCase();
  const count = /^\d/.test(word)
    ? Number(word)
    : ['a', 'an'].includes(word)
      ? 1
      : NUMBERS.indexOf(word as (typeof NUMBERS)[number]);
  return count < 0 ? undefined : count * DAYS[said[2]!.toLowerCase()]!;
}

interface Timed {
  readonly id: string;
  readonly days: number;
  readonly needs: readonly string[];
}

/**
 * When each is there, in days from now, if everything begins as soon as it can: what an offer needs comes before it,
 * all else at the same time. Offers that need one another in a circle begin together.
 */
export function finishDays(offers: readonly Timed[]): ReadonlyMap<string, number> {
  const byId = new Map(offers.map((offer) => [offer.id, offer]));
  const reached = new Map(offers.map(({ id }) => [id, reachedFrom(id, byId)]));
  const finished = new Map<string, number>();
  const finish = (offer: Timed): number => {
    const known = finished.get(offer.id);
    if (known !== undefined) return known;
    const before = [...reached.get(offer.id)!].filter((id) => !reached.get(id)?.has(offer.id));
    const days = offer.days + Math.max(0, ...before.map((id) => finish(byId.get(id)!)));
    finished.set(offer.id, days);
    return days;
  };
  for (const offer of offers) finish(offer);
  return finished;
}

/** All that it needs, and what that needs. */
function reachedFrom(id: string, byId: ReadonlyMap<string, Timed>): Set<string> {
  const reached = new Set<string>();
  const left = [...(byId.get(id)?.needs ?? [])];
  for (let next = left.pop(); next !== undefined; next = left.pop()) {
    if (reached.has(next) || !byId.has(next)) continue;
    reached.add(next);
    left.push(...byId.get(next)!.needs);
  }
  return reached;
}
