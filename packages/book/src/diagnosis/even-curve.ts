/**
 * A curve through values at even places from 0 to 1 that rises and falls only where they do: cubic pieces whose
 * slopes are held back (harmonic mean of the two chords, none at a turning point), so that a kink such as a valve
 * opening is rounded off without overshoot.
 *
 * @source fritsch-butland-1984
 */
export function evenCurve(values: ArrayLike<number>): (u: number) => number {
  const last = values.length - 1;
  if (last === 0) return () => values[0]!;
  const chord = Array.from({ length: last }, (_, i) => values[i + 1]! - values[i]!);
  const slopes = Array.from(values, (_, i) => {
    if (i === 0) return chord[0]!;
    if (i === last) return chord[last - 1]!;
    const [a, b] = [chord[i - 1]!, chord[i]!];
    return a * b > 0 ? (2 * a * b) / (a + b) : 0;
  });
  return (u) => {
    const place = Math.min(Math.max(u, 0), 1) * last;
    const i = Math.min(Math.floor(place), last - 1);
    const t = place - i;
    const [y0, y1, d0, d1] = [values[i]!, values[i + 1]!, slopes[i]!, slopes[i + 1]!];
    const rest = y1 - y0;
    return y0 + t * (d0 + t * (3 * rest - 2 * d0 - d1 + t * (d0 + d1 - 2 * rest)));
  };
}
