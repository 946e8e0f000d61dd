/** What a characteristic may be, in SI; a limit not given is not tested. */
export interface Limits {
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
}

/** A reading on the limit is inside it; conversions between units must not push it out by their last bit. */
const LAST_BITS = 1e-12;

export const atMost = (a: number, b: number): boolean => a <= b + LAST_BITS * Math.abs(b);
export const isLimited = ({ lower, upper }: Limits): boolean => lower !== undefined || upper !== undefined;
export const isInside = (value: number, { lower, upper }: Limits): boolean =>
  (lower === undefined || atMost(lower, value)) && (upper === undefined || atMost(value, upper));
