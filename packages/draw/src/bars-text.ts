export interface Bar {
  readonly label: string;
  readonly value: number;
  /** Printed after the bar. */
  readonly text: string;
}

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉'];

/** Horizontal bars from zero to the greatest value, labels to the left, figures to the right. */
export function barsText(bars: readonly Bar[], width = 30): string[] {
  const label = Math.max(0, ...bars.map((bar) => bar.label.length));
  const most = Math.max(...bars.map((bar) => bar.value), 0);
  return bars.map((bar) => {
    const eighths = most > 0 ? Math.round((Math.max(bar.value, 0) / most) * width * 8) : 0;
    const drawn = '█'.repeat(Math.floor(eighths / 8)) + EIGHTHS[eighths % 8];
    return `${bar.label.padEnd(label)}  ${drawn.padEnd(width)}  ${bar.text}`.trimEnd();
  });
}
