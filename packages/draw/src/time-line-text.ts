import type { TimeChart } from './time-line.ts';

const COLUMNS = 58;
/** Units from one figure of the scale to the next. */
const STEPS = [1, 2, 5, 10, 20, 50, 100];
/** No job takes longer [days]. */
const LONGEST = 10_000;

/**
 * Tasks as bars of characters over days: `█` where the date hangs on them, `▒` else, `─` up to the longest each may
 * take, `·` as long as it could be late, `╎` the date.
 */
export function timeLineText({ rows, due, end, unit }: TimeChart): string[] {
  const finite = (value: number): number =>
    Number.isFinite(value) ? Math.min(Math.max(0, value), LONGEST) : 0;
  if (rows.length === 0) return [];
  const last = Math.max(
    1,
    ...rows.map(({ latest }) => finite(latest)),
    finite(due?.days ?? 0),
    finite(end?.late ?? 0),
  );
  const column = (at: number): number =>
    Math.min(COLUMNS - 1, Math.round((finite(at) / (last * 1.02)) * (COLUMNS - 1)));
  const names = Math.min(34, Math.max(...rows.map(({ name }) => [...name].length), 8));
  const short = (name: string): string => {
    const characters = [...name];
    return characters.length > names ? `${characters.slice(0, names - 1).join('')}…` : name.padEnd(names);
  };
  const withDue = (cells: string[]): string => {
    if (due && cells[column(due.days)] === ' ') cells[column(due.days)] = '╎';
    return cells.join('').trimEnd();
  };
  const bars = rows.map((row) => {
    const cells = new Array<string>(COLUMNS).fill(' ');
    const fill = (from: number, to: number, mark: string): void => {
      for (let k = column(from); k <= column(to); k++) if (cells[k] === ' ') cells[k] = mark;
    };
    fill(row.start, Math.max(row.start, row.finish), row.critical ? '█' : '▒');
    fill(row.finish, row.latest, '─');
    if (row.slack > 0) fill(row.finish, row.finish + row.slack, '·');
    return `${short(row.name)} │${withDue(cells)}`;
  });
  const done = end && new Array<string>(COLUMNS).fill(' ');
  if (done && end) {
    for (let k = column(end.early); k <= column(end.late); k++) done[k] = '─';
    done[column(end.early)] = '├';
    done[column(end.late)] = '┤';
    done[column(end.middle)] = '┼';
  }
  const most = last / unit.days / 14;
  const step = unit.days * (STEPS.find((each) => each >= most) ?? Math.ceil(most));
  const marks = Array.from({ length: Math.floor(last / step) + 1 }, (_, k) => k * step);
  const scale = new Array<string>(COLUMNS + 4).fill(' ');
  marks.forEach((at) => {
    const figure = String(at / unit.days);
    const start = column(at);
    if (scale.slice(Math.max(0, start - 1), start + figure.length + 1).some((cell) => cell !== ' ')) return;
    [...figure].forEach((digit, k) => {
      scale[start + k] = digit;
    });
  });
  return [
    ...bars,
    ...(done ? [`${short(end?.text ?? '')} │${withDue(done)}`] : []),
    `${' '.repeat(names)} └${'─'.repeat(COLUMNS)}`,
    `${' '.repeat(names)}  ${scale.join('').trimEnd()} ${unit.name} from today${due ? `; ╎ ${due.text}` : ''}`,
  ];
}
