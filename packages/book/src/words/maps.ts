import { limitsOf } from '../assess/limits.ts';
import type { Operand } from '../assess/operand.ts';
import type { CardColumn, JobCard } from '../maps/job-cards.ts';
import type { JobMap, MapStrip, PlaceCell, Spread } from '../maps/job-maps.ts';
import type { Place } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import type { Block } from './block.ts';
import { bare, limitWords, operandWords, shown } from './quantity.ts';

/** In which unit a characteristic is shown; the page has a choice of it. */
export type UnitOf = (characteristic: Characteristic) => string | undefined;
const sheetUnit: UnitOf = ({ unit, kind }) => (kind === 'seen' ? undefined : unit);

export const NO_MAPS = 'Nothing on this sheet is read over two or more axes, so there is nothing to unroll.';

/** Numbers say what they count; words stand for themselves. */
export const axisWords = (axis: string, value: string): string =>
  axis === 'turn' ? `${value}°` : /^\d+$/.test(value) ? `${axis} ${value}` : value;

/** `cylinder 3, top, thrust` */
export const placeWords = (place: Place): string =>
  Object.entries(place)
    .map(([axis, value]) => axisWords(axis, value))
    .join(', ');

const VERDICTS: Readonly<Record<string, string>> = { in: 'in', out: 'out', 'cannot-tell': 'cannot tell' };
export const verdictWords = (verdict: string | undefined): string => VERDICTS[verdict ?? ''] ?? '';

const operandBare = (characteristic: Characteristic, operand: Operand, unit: string | undefined): string =>
  operand.kind === 'value'
    ? bare(characteristic, operand.q.value, unit)
    : operandWords(characteristic, operand, unit);

/** The figure of a box; nothing where nothing is measured. */
export const cellWords = (c: Characteristic, cell: PlaceCell | undefined, unitOf = sheetUnit): string =>
  cell?.operand ? operandBare(c, cell.operand, unitOf(c)) : '';

/** `+0.0042`: how far a place is from as new. */
export const offWords = (c: Characteristic, cell: PlaceCell, unitOf = sheetUnit): string => {
  if (cell.off === undefined) return '';
  const text = bare(c, cell.off, unitOf(c));
  return cell.off > 0 ? `+${text}` : text;
};

function spreadWords(c: Characteristic, word: string, spread: Spread, unitOf: UnitOf): string {
  if (spread.value === 0) return `${word}: none seen`;
  return `${word} ${shown(c, spread.value, unitOf(c))} (${placeWords(spread.greatest)} less ${placeWords(spread.least)})`;
}

/** What the strip's own figures come to: taper, out-of-round, and the places they are differences of. */
export const stripWords = ({ taper, outOfRound }: MapStrip, c: Characteristic, unitOf = sheetUnit): string =>
  [
    ...(taper ? [spreadWords(c, 'taper', taper, unitOf)] : []),
    ...(outOfRound ? [spreadWords(c, 'out of round', outOfRound, unitOf)] : []),
  ].join('; ');

/** What is to be known of a map first. */
export function mapLines(map: JobMap, unitOf = sheetUnit): string[] {
  const { characteristic: c, farthest, meant, measured, places } = map;
  const lines = [
    measured === places
      ? `All ${places} places are measured.`
      : `${measured} of ${places} places are measured.`,
  ];
  if (farthest?.off !== undefined && meant !== undefined)
    lines.push(
      meant === 0
        ? `Most at ${placeWords(farthest.place)}: ${cellWords(c, farthest, unitOf)}.`
        : `Farthest from as new at ${placeWords(farthest.place)}: ${cellWords(c, farthest, unitOf)}, ${offWords(c, farthest, unitOf)} from the size meant for a new part.`,
    );
  return lines;
}

/** What a map cannot show. */
export function mapNotes({ characteristic: c, strips, columns, strip }: JobMap): string[] {
  if (strips.some(({ outOfRound }) => outOfRound))
    return [
      `Out of round is the greatest difference between the ${columns.length} directions measured at one height, taper the greatest along one direction of ${strip === undefined ? 'it' : `one ${strip}`}; both are differences of sizes, and their verdict is that of the sheet's own lines for them.`,
      ...(columns.length === 2
        ? ['Two directions cannot see three lobes: a bore may be out of round and read the same both ways.']
        : []),
    ];
  return c.relation ? ['Worked out from other readings, place by place.'] : [];
}

export const mapTitle = ({ characteristic: { line, name } }: JobMap): string =>
  line === undefined ? name : `${line} ${name}`;

/** A map as a table of text: a strip's rows below each other, what decides marked. */
export function mapBlock(map: JobMap, unitOf = sheetUnit): Block {
  const { characteristic: c, strip, row, column, rows, columns, strips } = map;
  const figure = (cell: PlaceCell): string =>
    cell.operand
      ? [cellWords(c, cell, unitOf), verdictWords(cell.verdict), cell.worst ? '<' : '']
          .filter((word) => word !== '')
          .join(' ')
      : '[ ]';
  return {
    title: mapTitle(map),
    lines: [
      ...mapLines(map, unitOf),
      ...strips.flatMap((one) => {
        const said = stripWords(one, c, unitOf);
        return said === ''
          ? []
          : [`${strip === undefined ? '' : `${axisWords(strip, one.value ?? '')}: `}${said}.`];
      }),
    ],
    table: {
      head: [
        ...(strip === undefined ? [] : [strip]),
        row,
        ...columns.map((value) => axisWords(column, value)),
      ],
      rows: strips.flatMap(({ value, cells }) =>
        cells.map((line, r) => [
          ...(strip === undefined ? [] : [value ?? '']),
          rows[r] ?? '',
          ...line.map(figure),
        ]),
      ),
    },
    notes: ['[ ] is not measured yet; < marks the place by which its part is judged.', ...mapNotes(map)],
  };
}

/** Whether a card shows loads of springs. */
const hasLoads = ({ columns }: JobCard): boolean =>
  columns.some(({ characteristic }) => characteristic.kind === 'force');

export const cardTitle = ({ axis }: JobCard): string => `By ${axis}`;

/** `max 0.0010 in as new; max 0.0020 in worn`, or that there is none. */
export function columnLimits({ characteristic: c }: CardColumn, unitOf = sheetUnit): string {
  const said = (['new', 'wear'] as const).flatMap((level) => {
    const limits = limitsOf(c, level, undefined);
    return limits ? [`${limitWords(c, limits, unitOf(c))} ${level === 'new' ? 'as new' : 'worn'}`] : [];
  });
  return said.length === 0 ? 'no limits' : said.join('; ');
}

/** Worst place, mean and mean cube of a column, where they can be told. */
export function columnWords(
  { characteristic: c, cells, mean, meanCube }: CardColumn,
  unitOf = sheetUnit,
): string {
  const worst = cells.find((cell) => cell?.worst);
  return [
    ...(worst ? [`worst at ${placeWords(worst.place)}, ${cellWords(c, worst, unitOf)}`] : []),
    ...(mean === undefined ? [] : [`mean ${shown(c, mean, unitOf(c))}`]),
    ...(meanCube === undefined
      ? []
      : [
          `mean cube ${shown(c, meanCube, unitOf(c))}, the even depth that leaks as much (leak goes with the cube)`,
        ]),
  ].join('; ');
}

export const cardNotes = (card: JobCard): string[] =>
  hasLoads(card)
    ? [
        'Free length alone does not judge a spring: its load at the fitted height does. One that lost load is replaced, never stretched.',
      ]
    : [];

export function cardBlock(card: JobCard, unitOf = sheetUnit): Block {
  const { axis, rows, columns } = card;
  return {
    title: cardTitle(card),
    lines: columns.map((column) => {
      const said = columnWords(column, unitOf);
      return `${column.characteristic.name}: ${columnLimits(column, unitOf)}${said === '' ? '' : `; ${said}`}.`;
    }),
    table: {
      head: [axis, ...columns.map(({ characteristic }) => characteristic.name)],
      rows: rows.map((value, r) => [
        value,
        ...columns.map(({ characteristic, cells }) => {
          const cell = cells[r];
          if (!cell) return '';
          if (!cell.operand) return '[ ]';
          return `${cellWords(characteristic, cell, unitOf)} ${verdictWords(cell.verdict)}`.trim();
        }),
      ]),
    },
    notes: ['[ ] is not measured yet; an empty place is not on the sheet.', ...cardNotes(card)],
  };
}
