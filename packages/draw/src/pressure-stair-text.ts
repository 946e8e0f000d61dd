import type { PressureStair, StairTread } from './pressure-stair.ts';
import { finite } from './svg/finite.ts';

/** Columns the stair itself takes. */
const COLUMNS = 32;

/**
 * The pressure stair as lines of text, going down from right to left: `█` what a repair's parts carry, `░` what a
 * lifted one carried, `┊` the required minimum.
 */
export function pressureStairText(stair: PressureStair, columns = COLUMNS): string[] {
  const { asNew, now, treads, required } = stair;
  const top = finite(asNew.value) ?? 0;
  const most = Math.max(top, finite(required?.value) ?? 0, finite(now.value) ?? 0, 0) || 1;
  const column = (value: number): number =>
    Math.min(columns, Math.max(0, Math.round((value / most) * columns)));
  const names = Math.max(
    ...[asNew.name, now.name, ...treads.map(({ name }) => name)].map((n) => [...n].length),
  );
  const texts = Math.max(
    ...[asNew.text, now.text, ...treads.map(({ text }) => text)].map((t) => [...t].length),
  );
  const asked = finite(required?.value);
  const row = (name: string, text: string, cells: string[], after = ''): string => {
    const mark = asked === undefined ? -1 : Math.min(columns - 1, column(asked));
    if (cells[mark] === ' ') cells[mark] = '┊';
    return `${name.padEnd(names)}  ${text.padStart(texts)}  ${cells.join('')}  ${after}`.trimEnd();
  };
  const filled = (from: number, to: number, mark: string): string[] =>
    Array.from({ length: columns }, (_, i) => (i >= from && i < to ? mark : ' '));
  let before = top;
  const steps = treads.map((tread: StairTread): string => {
    const after = before - (finite(tread.share) ?? 0);
    const [a, b] = [column(Math.min(before, after)), column(Math.max(before, after))];
    const cells = filled(a, b, '█');
    if (tread.lifted) {
      const from = column(before - Math.max(0, finite(tread.carried) ?? 0));
      for (let i = from; i < column(before); i++) if (cells[i] === ' ') cells[i] = '░';
    }
    before = after;
    return row(tread.name, tread.text, cells, tread.alone?.text);
  });
  return [
    row(asNew.name, asNew.text, filled(0, column(top), '─')),
    ...steps,
    row(now.name, now.text, filled(0, column(finite(now.value) ?? 0), '─')),
    ...(asked === undefined ? [] : [row(required!.name, required!.text, filled(columns, columns, ' '))]),
  ];
}
