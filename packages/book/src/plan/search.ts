/**
 * The exact search behind the repair plan. It knows nothing of engines: offers are bits, what must be cured is sets of
 * bits, and the chance that the pressures are met is asked of whoever calls.
 *
 * A search of our own and no integer-programming library: the chance comes from solving an oil network, which no
 * linear program can hold, and with some twenty offers the sets are few once each is asked about only once.
 *
 * The sets of offers that touch the oil ("oil masks") are gone through by depth first; each is completed at the least
 * cost by offers that do not (a covering problem, solved exactly by branching on what fewest offers cure). A branch is
 * left when what is to be cured no longer can be, or when the pressure stays under its least even with every offer
 * still open taken: pressures rise with each of them, so no set below could pass with more than an even chance.
 */

export interface Choice {
  readonly price: number;
  /** Bits of the offers without which this one cannot be taken. */
  readonly needs: number;
  /** Bits of the offers that cannot be taken beside it. */
  readonly excludes: number;
}

export interface Problem {
  readonly choices: readonly Choice[];
  /** Each is met by any of its bits. */
  readonly requirements: readonly number[];
  /** Bits of the offers that change the oil pressure. */
  readonly oil: number;
  /**
   * Probability that every pressure is as wanted with just these oil offers taken. Where it is under `atLeast` any
   * figure under that will do.
   */
  readonly chance: (oil: number, atLeast?: number) => number;
  /** False only where no set between `taken` and `taken | open` can have a chance over one half. */
  readonly hopeful: (taken: number, open: number) => boolean;
  /** Bits that must not be taken. */
  readonly banned?: number;
}

export interface Found {
  readonly taken: number;
  readonly price: number;
  readonly chance: number;
}

/** More would not fit the bits of a number, and hardly the two seconds that a person waits. */
export const MOST_CHOICES = 28;

/** What a chance must gain before money is spent on it. */
const STEP = 0.001;

interface Priced {
  readonly taken: number;
  readonly price: number;
}

const has = (mask: number, i: number): boolean => (mask & (1 << i)) !== 0;

/** Every oil mask that can be completed, at its least price, cheapest first. */
export function completions(problem: Problem): Priced[] {
  const { choices, oil, requirements, banned = 0 } = problem;
  const oilBits = choices.flatMap((_, i) => (has(oil, i) && !has(banned, i) ? [i] : []));
  const complete = completer(problem);
  const found: Priced[] = [];
  const walk = (depth: number, taken: number, excluded: number, open: number): void => {
    if (requirements.some((bits) => (bits & ~oil & ~banned) === 0 && (bits & (taken | open)) === 0)) return;
    if (!problem.hopeful(taken, open)) return;
    const bit = oilBits[depth];
    if (bit === undefined) {
      const done = complete(taken, excluded);
      if (done) found.push(done);
      return;
    }
    const rest = open & ~(1 << bit);
    const choice = choices[bit]!;
    if (!has(excluded, bit) && (choice.excludes & taken) === 0)
      walk(depth + 1, taken | (1 << bit), excluded | choice.excludes, rest & ~choice.excludes);
    walk(depth + 1, taken, excluded, rest);
  };
  walk(
    0,
    0,
    0,
    oilBits.reduce((mask, i) => mask | (1 << i), 0),
  );
  return found.sort((a, b) => a.price - b.price || a.taken - b.taken);
}

/** The cheapest way to round an oil mask off with offers that do not touch the oil; nothing where there is none. */
function completer({ choices, oil, requirements, banned = 0 }: Problem) {
  const priceOf = (mask: number): number =>
    choices.reduce((sum, { price }, i) => (has(mask, i) ? sum + price : sum), 0);
  const outside = choices.reduce((mask, { needs }, i) => (has(oil, i) ? mask : mask | (needs & oil)), 0);
  const known = new Map<string, number | undefined>();

  /** With all they need; undefined where that cannot be had. */
  const closed = (taken: number, oilTaken: number, excluded: number): number | undefined => {
    let mask = taken;
    for (;;) {
      let next = mask;
      let against = excluded;
      choices.forEach(({ needs, excludes }, i) => {
        if (!has(mask, i)) return;
        next |= needs & ~oil;
        against |= excludes;
      });
      const wantsOil = choices.reduce((all, { needs }, i) => (has(mask, i) ? all | (needs & oil) : all), 0);
      if ((wantsOil & ~oilTaken) !== 0 || (against & (mask | oilTaken)) !== 0 || (mask & banned) !== 0)
        return undefined;
      if (next === mask) return mask;
      mask = next;
    }
  };

  const cheapest = (must: number, oilTaken: number, excluded: number, open: readonly number[]) => {
    let best: { mask: number; price: number } | undefined;
    const branch = (mask: number, left: readonly number[], refused: number): void => {
      const price = priceOf(mask);
      if (best && price >= best.price) return;
      const uncured = left.filter((bits) => (bits & mask) === 0);
      if (uncured.length === 0) {
        best = { mask, price };
        return;
      }
      const narrowest = uncured.reduce((a, b) => (count(a & ~refused) <= count(b & ~refused) ? a : b));
      let without = refused;
      choices.forEach((_, i) => {
        if (!has(narrowest & ~without, i)) return;
        const grown = closed(mask | (1 << i), oilTaken, excluded);
        if (grown !== undefined && (grown & without) === 0) branch(grown, uncured, without);
        // What this offer can do has been seen: from here on only sets without it.
        without |= 1 << i;
      });
    };
    const start = closed(must, oilTaken, excluded);
    if (start !== undefined) branch(start, open, 0);
    return best?.mask;
  };

  return (taken: number, excluded: number): Priced | undefined => {
    const needs = choices.reduce((mask, choice, i) => (has(taken, i) ? mask | choice.needs : mask), 0);
    if ((needs & oil & ~taken) !== 0) return undefined;
    const must = needs & ~oil;
    const open = requirements.map((bits) => ((bits & taken) !== 0 ? 0 : bits & ~oil & ~banned));
    const uncured = requirements.flatMap((bits, i) => ((bits & taken) !== 0 ? [] : [open[i]!]));
    if (uncured.includes(0)) return undefined;
    // Of the oil offers only those that an offer outside the oil needs or excludes can matter to the completion.
    const key = `${must}|${excluded & ~oil}|${taken & (outside | against(choices, oil))}|${uncured.join()}`;
    if (!known.has(key)) known.set(key, cheapest(must, taken, excluded & ~oil, uncured));
    const rest = known.get(key);
    return rest === undefined ? undefined : { taken: taken | rest, price: priceOf(taken | rest) };
  };
}

/** Oil offers that some offer outside the oil excludes. */
const against = (choices: readonly Choice[], oil: number): number =>
  choices.reduce((mask, { excludes }, i) => (has(oil, i) ? mask : mask | (excludes & oil)), 0);

export function count(mask: number): number {
  let bits = 0;
  for (let left = mask; left !== 0; left &= left - 1) bits++;
  return bits;
}

/** The cheapest set that passes with the wanted chance; of two as cheap the likelier. */
export function cheapestSet(
  problem: Problem,
  confidence: number,
  sets = completions(problem),
): Found | undefined {
  let best: Found | undefined;
  for (const { taken, price } of sets) {
    if (best && price > best.price) break;
    const chance = problem.chance(taken & problem.oil, confidence);
    if (chance >= confidence && (!best || chance > best.chance)) best = { taken, price, chance };
  }
  return best;
}

/**
 * What more money buys: from the cheapest set on, each next one at the least price that raises the chance. Sets less
 * likely to pass than to fail are left out, but for the cheapest of all.
 *
 * @param cheapest  least price at which everything else is as it must be, whatever the pressure
 */
export function frontier(
  problem: Problem,
  cheapest: Priced | undefined,
  sets = completions(problem),
): Found[] {
  const points: Found[] = cheapest
    ? [{ ...cheapest, chance: problem.chance(cheapest.taken & problem.oil) }]
    : [];
  for (const { taken, price } of sets) {
    const last = points.at(-1);
    if (last && last.chance >= 1 - STEP) break;
    const least = last && Math.max(0.5, last.chance + STEP);
    const chance = problem.chance(taken & problem.oil, least);
    if (least !== undefined && chance < least) continue;
    if (last && last.price === price) points.pop();
    points.push({ taken, price, chance });
  }
  return points;
}
