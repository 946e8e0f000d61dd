/** One set of repairs: what it costs, how sure it makes, and the character that stands for it. */
export interface CostMark {
  readonly price: number;
  /** 0 to 1. */
  readonly chance: number;
  /** One character. Later marks are drawn over earlier ones. */
  readonly mark: string;
}

/** How wide the field is, in characters, without its axis. */
const COLUMNS = 66;
const ROWS = 10;

/**
 * Chance against price as a block of text: from 0 to 100 % upwards, the confidence wanted as a dashed line, the cap
 * as an upright one where it lies within the prices.
 */
export function costFrontierText(
  marks: readonly CostMark[],
  lines: { readonly wanted?: number; readonly cap?: number } = {},
): string[] {
  const drawn = marks.filter(({ price, chance }) => Number.isFinite(price) && Number.isFinite(chance));
  const most = Math.max(1, ...drawn.map(({ price }) => price)) * 1.04;
  const row = (chance: number): number => Math.round((1 - Math.min(Math.max(chance, 0), 1)) * ROWS);
  const column = (price: number): number =>
    Math.round((Math.min(Math.max(price, 0), most) / most) * (COLUMNS - 1));
  const grid = Array.from({ length: ROWS + 1 }, () => new Array<string>(COLUMNS).fill(' '));
  if (lines.wanted !== undefined) grid[row(lines.wanted)]!.fill('╌');
  if (lines.cap !== undefined && lines.cap <= most) for (const line of grid) line[column(lines.cap)] = '╎';
  for (const { price, chance, mark } of drawn) grid[row(chance)]![column(price)] = mark;
  const figure = (r: number): string =>
    r % 5 === 0 ? `${Math.round(100 * (1 - r / ROWS))} %`.padStart(6) : '      ';
  const last = String(Math.round(most));
  return [
    ...grid.map((line, r) => `${figure(r)} │${line.join('')}`.trimEnd()),
    `       └${'─'.repeat(COLUMNS)}`,
    `        0${last.padStart(COLUMNS - 1)}`,
  ];
}
