export interface CoverMark {
  readonly name: string;
  readonly reopenHours: number;
  readonly state: 'open' | 'held' | 'closed' | 'passed';
  /** How many reasons hold it. */
  readonly reasons: number;
}

const SIGN = {
  open: '○ may be closed',
  held: '✖ HELD',
  closed: '● closed',
  passed: '◐ hold passed',
} as const;

/** The covers in the order they go on, each weighed by the hours it costs to reopen: a long beam is a dear mistake. */
export function closingLineText(covers: readonly CoverMark[]): string[] {
  const name = Math.max(0, ...covers.map((cover) => cover.name.length));
  return covers.map((cover, i) => {
    const beam = '═'.repeat(Math.max(1, Math.round(cover.reopenHours)));
    const why = cover.reasons > 0 ? `, ${cover.reasons} ${cover.reasons === 1 ? 'reason' : 'reasons'}` : '';
    const told = `${String(i + 1).padStart(2)}  ${cover.name.padEnd(name)}  ${SIGN[cover.state]}${why}`;
    return `${told.padEnd(name + 36)}${beam} ${cover.reopenHours} h to reopen`;
  });
}
