/** What a limit rail shows, all in one unit. */
export interface Rail {
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
  /** The block: as wide as the reading's uncertainty. An open end runs off the rail. */
  readonly from?: number | undefined;
  readonly to?: number | undefined;
}

const POST = '┃';
const LINE = '─';
const BLOCK = '▓';
const OPEN_LEFT = '◀';
const OPEN_RIGHT = '▶';

/**
 * The limit rail as one line of text: limits as posts, the reading as a block as wide as its uncertainty.
 * A block across a post is what "cannot tell" looks like.
 *
 * @param width  characters, at least 20
 */
export function limitRailText(rail: Rail, width = 40): string {
  const marks = [rail.lower, rail.upper, rail.from, rail.to].filter((mark) => mark !== undefined);
  if (marks.length === 0) return LINE.repeat(width);
  const [least, most] = [Math.min(...marks), Math.max(...marks)];
  const margin = (most - least || Math.abs(most) || 1) * 0.15;
  const [start, end] = [least - margin, most + margin];
  const column = (value: number): number =>
    Math.min(width - 1, Math.max(0, Math.round(((value - start) / (end - start)) * (width - 1))));
  const line = new Array<string>(width).fill(LINE);
  const [from, to] = [
    rail.from === undefined ? 0 : column(rail.from),
    rail.to === undefined ? width - 1 : column(rail.to),
  ];
  if (rail.from !== undefined || rail.to !== undefined) {
    for (let i = from; i <= to; i++) line[i] = BLOCK;
    if (rail.from === undefined) line[0] = OPEN_LEFT;
    if (rail.to === undefined) line[width - 1] = OPEN_RIGHT;
  }
  // Posts are drawn last: a post seen through the block is the whole point.
  for (const limit of [rail.lower, rail.upper]) if (limit !== undefined) line[column(limit)] = POST;
  return line.join('');
}
