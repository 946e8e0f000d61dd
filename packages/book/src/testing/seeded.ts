/** Draws that are the same every time: a multiplicative congruential generator, good enough for trials of a test. */
export class Seeded {
  private state: number;

  constructor(seed: number) {
    this.state = (seed * 48271) % 2147483647 || 1;
  }

  /** Even between 0 and 1. */
  even(): number {
    this.state = (this.state * 48271) % 2147483647;
    return this.state / 2147483647;
  }

  /** Normal, of mean 0 and deviation 1: twelve even draws less six would have no tails, so by angle and radius. */
  normal(): number {
    return Math.sqrt(-2 * Math.log(this.even())) * Math.cos(2 * Math.PI * this.even());
  }

  /** An index drawn by its weight. */
  pick(weights: readonly number[]): number {
    let left = this.even() * weights.reduce((a, b) => a + b, 0);
    const found = weights.findIndex((weight) => {
      left -= weight;
      return left < 0;
    });
    return found < 0 ? weights.length - 1 : found;
  }
}
