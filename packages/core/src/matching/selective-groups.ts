/** Parts of both sides that go together, any with any. */
export interface SelectiveGroup {
  /** Numbers of the holes and of the parts that go into them, from 0. */
  readonly holes: readonly number[];
  readonly parts: readonly number[];
  /** Least and greatest clearance any pair of the group can have; absent where holes or parts are alone. */
  readonly range?: readonly [least: number, greatest: number];
}

/**
 * Grouping for selective assembly: holes and parts sorted into the fewest groups such that any part of a group in
 * any hole of it keeps the clearance within limits.
 *
 * With c the middle of the limits, hole sizes h and part sizes p + c are laid on one line; a stretch no longer than
 * half the distance of the limits holds a group, since |h − p − c| is then no more than that. Cutting from the left
 * needs the fewest stretches.
 *
 * @param holes  sizes of the holes, at least one
 * @param parts  sizes of what goes in
 * @param lower  least clearance allowed
 * @param upper  greatest clearance allowed, above `lower`
 * @returns      groups from the smallest size up; one with holes alone or parts alone finds no partner
 * @source       definition
 */
export function selectiveGroups(
  holes: readonly number[],
  parts: readonly number[],
  lower: number,
  upper: number,
): SelectiveGroup[] {
  const middle = (lower + upper) / 2;
  const reach = (upper - lower) / 2;
  const line = [
    ...holes.map((size, index) => ({ at: size, index, hole: true })),
    ...parts.map((size, index) => ({ at: size + middle, index, hole: false })),
  ].sort((a, b) => a.at - b.at);
  // Sizes in the machine's numbers: a stretch that is full to the last bit still holds.
  const slack = 1e-9 * (upper - lower);
  const stretches: (typeof line)[] = [];
  for (const one of line) {
    const open = stretches.at(-1);
    if (open && one.at - open[0]!.at <= reach + slack) open.push(one);
    else stretches.push([one]);
  }
  return stretches.map((stretch) => {
    const inHoles = stretch.filter(({ hole }) => hole);
    const inParts = stretch.filter(({ hole }) => !hole);
    const paired = inHoles.length > 0 && inParts.length > 0;
    return {
      holes: inHoles.map(({ index }) => index),
      parts: inParts.map(({ index }) => index),
      ...(paired && {
        range: [
          inHoles[0]!.at - inParts.at(-1)!.at + middle,
          inHoles.at(-1)!.at - inParts[0]!.at + middle,
        ] as const,
      }),
    };
  });
}
