/**
 * Centres for labels on one line, as near as can be to where they belong, none over its neighbour.
 *
 * @param labels  wanted centre and width, rising by centre
 * @param start  of the room they have
 * @param end  of it; where they do not all fit, they overlap evenly rather than leave the room
 */
export function spread(
  labels: readonly { readonly x: number; readonly width: number }[],
  start: number,
  end: number,
  gap: number,
): number[] {
  const whole = labels.reduce((sum, { width }) => sum + width, 0);
  const between = labels.length > 1 ? Math.min(gap, (end - start - whole) / (labels.length - 1)) : 0;
  const lefts: number[] = [];
  let free = start;
  for (const { x, width } of labels) {
    const left = Math.max(free, x - width / 2);
    lefts.push(left);
    free = left + width + between;
  }
  let limit = end;
  for (let i = labels.length - 1; i >= 0; i--) {
    lefts[i] = Math.min(lefts[i]!, limit - labels[i]!.width);
    limit = lefts[i]! - between;
  }
  return labels.map(({ width }, i) => lefts[i]! + width / 2);
}
