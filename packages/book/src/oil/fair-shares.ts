/** What each of several causes carries of what they do together. */
export interface FairShares {
  /** One a player, in their order; together they are worth of all less worth of none. */
  readonly shares: Float64Array;
  /** Standard error of each share; zero where every order was gone through. */
  readonly errors: Float64Array;
  readonly exact: boolean;
  /** Orders drawn; undefined where every order was gone through. */
  readonly orders?: number;
}

export interface Sampling {
  /** Every order is gone through up to so many players, at 2^n worths. */
  readonly exactUpTo: number;
  /** Orders drawn beyond it, an even number: each is gone through forwards and backwards. */
  readonly orders: number;
  /** The same seed gives the same answer. */
  readonly seed: number;
}

/** 4096 worths at most; 2000 orders leave a standard error of about a fiftieth of the scatter between orders. */
const SAMPLING: Sampling = { exactUpTo: 12, orders: 2000, seed: 1 };

/** Whether a player is in a set; sets of more than 30 do not fit the machine's own bits. */
export const holds = (set: number, player: number): boolean => Math.floor(set / 2 ** player) % 2 === 1;

/**
 * The share of each player, averaged over every order in which they can come in:
 *
 *     φ_i = Σ_S |S|! (n − |S| − 1)! / n! · (v(S ∪ i) − v(S))     over all S without i
 *
 * @param n      players, up to 53
 * @param worth  v of a set of players, bit i for player i; asked once for each set
 * @source shapley-1953
 */
export function fairShares(
  n: number,
  worth: (set: number) => number,
  sampling: Partial<Sampling> = {},
): FairShares {
  const { exactUpTo, orders, seed } = { ...SAMPLING, ...sampling };
  return n <= exactUpTo ? everyOrder(n, worth) : drawnOrders(n, worth, orders, seed);
}

function everyOrder(n: number, worth: (set: number) => number): FairShares {
  const worths = new Float64Array(2 ** n);
  // By Gray's code: each set differs from the one before by one player, so its answer lies near.
  for (let k = 0; k < worths.length; k++) {
    const set = k ^ (k >> 1);
    worths[set] = worth(set);
  }
  return { shares: sharesOf(n, worths), errors: new Float64Array(n), exact: true };
}

/** @param worths  of every set, by its bits */
export function sharesOf(n: number, worths: Float64Array): Float64Array {
  // |S|! (n − |S| − 1)! / n! = 1 / (n C(n−1, |S|))
  const weights = new Float64Array(n);
  for (let size = 0, choices = 1; size < n; size++) {
    weights[size] = 1 / (n * choices);
    choices = (choices * (n - 1 - size)) / (size + 1);
  }
  const shares = new Float64Array(n);
  for (let set = 0; set < worths.length; set++) {
    const weight = weights[sizeOf(set)];
    for (let i = 0; i < n; i++) {
      const one = 1 << i;
      if ((set & one) === 0) shares[i]! += weight! * (worths[set | one]! - worths[set]!);
    }
  }
  return shares;
}

function sizeOf(set: number): number {
  let size = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) size++;
  return size;
}

/** Each order drawn is also gone through backwards: whoever came first comes last, which evens much of the scatter. */
function drawnOrders(n: number, worth: (set: number) => number, orders: number, seed: number): FairShares {
  const known = new Map<number, number>();
  const worthOf = (set: number): number => {
    let value = known.get(set);
    if (value === undefined) {
      value = worth(set);
      known.set(set, value);
    }
    return value;
  };
  const random = drawing(seed);
  const order = Int32Array.from({ length: n }, (_, i) => i);
  const pairs = Math.max(2, Math.ceil(orders / 2));
  const sums = new Float64Array(n);
  const squares = new Float64Array(n);
  const gains = new Float64Array(n);
  for (let pair = 0; pair < pairs; pair++) {
    for (let i = n - 1; i > 0; i--) {
      const j = Math.floor(random() * (i + 1));
      [order[i], order[j]] = [order[j]!, order[i]!];
    }
    gains.fill(0);
    for (const backwards of [false, true]) {
      let [set, before] = [0, worthOf(0)];
      for (let k = 0; k < n; k++) {
        const player = order[backwards ? n - 1 - k : k]!;
        set += 2 ** player;
        const after = worthOf(set);
        gains[player]! += (after - before) / 2;
        before = after;
      }
    }
    for (let i = 0; i < n; i++) {
      sums[i]! += gains[i]!;
      squares[i]! += gains[i]! ** 2;
    }
  }
  const shares = sums.map((sum) => sum / pairs);
  const errors = squares.map((square, i) =>
    Math.sqrt(Math.max(0, square / pairs - shares[i]! ** 2) / (pairs - 1)),
  );
  return { shares, errors, exact: false, orders: 2 * pairs };
}

/** Numbers in [0, 1): a counter of 32 bits stirred by multiplying and shifting. */
function drawing(seed: number): () => number {
  let counter = seed | 0;
  return () => {
    counter = (counter + 0x9e3779b9) | 0;
    let z = Math.imul(counter ^ (counter >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  };
}
