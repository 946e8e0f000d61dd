import { limitsOf } from '../assess/limits.ts';
import type { Operand } from '../assess/operand.ts';
import type { CardColumn, JobCard } from '../maps/job-cards.ts';
import type { JobFace } from '../maps/job-faces.ts';
import type { JobMap, MapStrip, PlaceCell, Spread } from '../maps/job-maps.ts';
import type { JobSpring, SpringReading } from '../maps/job-springs.ts';
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

/** In capitals: beside a figure, "in" would be read as inches. */
const VERDICTS: Readonly<Record<string, string>> = { in: 'IN', out: 'OUT', 'cannot-tell': 'CANNOT TELL' };
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

/** `taper 0.0040 in (top less bottom, thrust)`: the axis that differs, then where else; the strip is said before it. */
function spreadWords(
  c: Characteristic,
  word: string,
  spread: Spread,
  strip: string | undefined,
  unitOf: UnitOf,
): string {
  if (spread.value === 0) return `${word}: none seen`;
  const { greatest, least } = spread;
  const shared = Object.entries(greatest).filter(([axis, value]) => axis !== strip && least[axis] === value);
  const [of, less] = [greatest, least].map((place) =>
    placeWords(Object.fromEntries(Object.entries(place).filter(([axis]) => greatest[axis] !== least[axis]))),
  );
  const where = shared.map(([axis, value]) => axisWords(axis, value));
  return `${word} ${shown(c, spread.value, unitOf(c))} (${[`${of} less ${less}`, ...where].join(', ')})`;
}

/** `farthest from new at top, thrust, +0.0042; decided at bottom, thrust`: only where the two are not one place. */
function apartWords(
  c: Characteristic,
  cells: readonly PlaceCell[],
  strip: string | undefined,
  unitOf: UnitOf,
): string[] {
  const [farthest, decides] = [cells.find((cell) => cell.farthest), cells.find((cell) => cell.worst)];
  if (!farthest || !decides) return [];
  const at = ({ place }: PlaceCell): string =>
    placeWords(Object.fromEntries(Object.entries(place).filter(([axis]) => axis !== strip)));
  return [
    `farthest from new at ${at(farthest)}, ${offWords(c, farthest, unitOf)}; decided at ${at(decides)}, ${offWords(c, decides, unitOf)}`,
  ];
}

/** What the strip's own figures come to: taper, out-of-round, and the places they are differences of. */
export const stripWords = (
  { characteristic: c, strip, row }: JobMap,
  { taper, outOfRound, oval, cells }: MapStrip,
  unitOf = sheetUnit,
): string =>
  [
    ...apartWords(c, cells.flat(), strip, unitOf),
    ...(taper ? [spreadWords(c, 'taper', taper, strip, unitOf)] : []),
    ...(outOfRound ? [spreadWords(c, 'out of round', outOfRound, strip, unitOf)] : []),
    ...(oval
      ? [
          `oval by ${shown(c, oval.ovality, unitOf(c))} by least squares, longest at ${Math.round((oval.longest * 180) / Math.PI) % 180}° (${axisWords(row, oval.row)}), ${shown(c, oval.rest, unitOf(c))} of a diameter left over`,
        ]
      : []),
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
      columns.length === 2
        ? 'Two directions cannot see three lobes: a bore may be out of round and read the same both ways.'
        : 'Diameters cannot see three lobes, in however many directions they are taken: points from one centre can.',
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
        const said = stripWords(map, one, unitOf);
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

const SPRING_NOTE =
  'Free length alone does not judge a spring: its load at the fitted height does. One that lost load is replaced, never stretched.';

/** Whether a card shows loads of springs. */
const hasLoads = ({ columns }: JobCard): boolean =>
  columns.some(({ characteristic }) => characteristic.kind === 'force');

/** Two names still fit on a line. */
export const cardTitle = ({ axis, columns }: JobCard): string =>
  columns.length > 2 ? `By ${axis}` : columns.map(({ characteristic: { name } }) => name).join(' · ');

const LONG_NAMES: Readonly<Record<string, string>> = { in: 'inches', thou: 'thousandths of an inch' };
/** Units whose sign does not read well in a sentence, written out. */
export const unitInWords = (unit: string): string => LONG_NAMES[unit] ?? unit;

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

export const cardNotes = (card: JobCard): string[] => (hasLoads(card) ? [SPRING_NOTE] : []);

export function cardBlock(card: JobCard, unitOf = sheetUnit): Block {
  const { axis, rows, columns } = card;
  return {
    title: cardTitle(card),
    lines: columns.map((column) => {
      const said = columnWords(column, unitOf);
      return `${column.characteristic.name}: ${columnLimits(column, unitOf)}${said === '' ? '' : `; ${said}`}.`;
    }),
    table: {
      head: [axis, ...rows],
      rows: columns.map(({ characteristic, cells }) => [
        characteristic.name,
        ...rows.map((_, r) => {
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

/** `Head, left`: what is probed, and which of several. */
export const faceTitle = ({ characteristic: { line, name }, place }: JobFace): string =>
  [
    line === undefined ? name : `${line} ${name}`,
    ...(Object.keys(place).length > 0 ? [placeWords(place)] : []),
  ].join(', ');

/** The spots on which the upper or the lower plane rests: `pan-screw 10, 16`. */
function heldBy({ spots, axis }: JobFace, side: 'high' | 'low'): string {
  const values = spots.filter(({ holds }) => holds === side).map(({ value }) => value);
  return values.every((value) => /^\d+$/.test(value)) ? `${axis} ${values.join(', ')}` : values.join(', ');
}

/** Two sides of 95 %: what lies beyond a limit by this many standard uncertainties is out, or in. */
const GUARD = 1.645;
/** U is two standard uncertainties. */
const COVERAGE = 2;

/** How flat the face is, what that hangs on, how it is judged; before it is probed, what probing would decide. */
export function faceLines(face: JobFace, unitOf = sheetUnit): string[] {
  const { characteristic: c, spots, measured, zone, judged, by } = face;
  const said = (si: number): string => shown(c, si, unitOf(c));
  const lines = [
    measured === spots.length
      ? `All ${measured} spots are probed.`
      : `${measured} of ${spots.length} spots are probed.`,
  ];
  if (zone && measured > 3) {
    const partly = measured < spots.length ? ' at least: the spots not probed yet can only add to it' : '';
    lines.push(
      `Flatness ${said(zone.flatness)}${partly}: the least distance between two planes that hold every spot (minimum zone). By least squares ${said(zone.leastSquares)}, never less.`,
      `The upper plane rests on ${heldBy(face, 'high')}, the lower on ${heldBy(face, 'low')}; the others could move a little and change nothing.`,
    );
  }
  const limits =
    judged &&
    (limitsOf(judged.characteristic, 'new', undefined) ?? limitsOf(judged.characteristic, 'wear', undefined));
  const { judgement } = judged ?? {};
  if (judged && judgement && judgement.operand.kind !== 'missing') {
    const verdict = judgement.governing && judgement.verdicts[judgement.governing]?.verdict;
    lines.push(
      `${judged.characteristic.name}: ${operandWords(judged.characteristic, judgement.operand, unitOf(judged.characteristic))}${limits ? `, ${limitWords(judged.characteristic, limits, unitOf(judged.characteristic))}` : ', no limits on the sheet'}${verdict ? `: ${verdictWords(verdict)}` : ''}.`,
    );
  }
  if (by && measured < spots.length && limits?.upper !== undefined) {
    const [out, inside] = [limits.upper + GUARD * by.most, limits.upper - GUARD * by.most];
    lines.push(
      `Probed at every spot with ${by.instrument} it would be known to ±${said(COVERAGE * by.most)} at most: a flatness of ${said(out)} or more would then be out${inside > 0 ? `, one of ${said(inside)} or less in` : ''}.`,
    );
  }
  return lines;
}

/** What a map of a face cannot show. */
export const faceNotes = ({ spots }: JobFace): string[] => [
  `It is as flat as at ${spots.length} spots: what lies between them is not seen.`,
  'What the indicator does alike at every spot drops out, and so does how the face is set up; each reading’s own doubt stays and can only make the face look less flat.',
];

export function faceBlock(face: JobFace, unitOf = sheetUnit): Block {
  const { characteristic: c, axis, spots } = face;
  return {
    title: faceTitle(face),
    lines: faceLines(face, unitOf),
    table: {
      head: [axis, 'read', 'over the lower plane', ''],
      rows: spots.map((spot) => [
        spot.value,
        spot.cell.operand ? cellWords(c, spot.cell, unitOf) : '[ ]',
        spot.above === undefined ? '' : bare(c, spot.above, unitOf(c)),
        spot.holds ?? '',
      ]),
    },
    notes: [
      '[ ] is not probed yet; high and low mark the spots on which the two planes rest.',
      ...faceNotes(face),
    ],
  };
}

export const springTitle = ({ name }: JobSpring): string => `${name}: load by length`;

const readingsOf = ({ cells, characteristic: c }: SpringReading, unitOf: UnitOf): string => {
  const known = cells.filter(({ operand }) => operand !== undefined);
  if (known.length === 0) return 'not measured';
  const worst = known.find((cell) => cell.worst) ?? known[0]!;
  const bad = known.filter(({ verdict }) => verdict === 'out');
  const told = known.length === 1 ? cellWords(c, worst, unitOf) : `${known.length} measured`;
  const which = bad.map((cell) => `${placeWords(cell.place)} (${cellWords(c, cell, unitOf)})`);
  if (known.length === 1) return `${told}${worst.verdict ? `, ${verdictWords(worst.verdict)}` : ''}`;
  return bad.length > 0 ? `${told}; out: ${which.join(', ')}` : told;
};

/** What springs of a kind are held to, and what they do. */
export function springLines({ loads, free, solid }: JobSpring, unitOf = sheetUnit): string[] {
  return [...(free ? [free] : []), ...loads, ...(solid ? [solid] : [])].map((one) => {
    const { characteristic: c } = one;
    const limits = limitsOf(c, 'new', undefined) ?? limitsOf(c, 'wear', undefined);
    return `${c.name}: ${limits ? limitWords(c, limits, unitOf(c)) : 'no limits'}; ${readingsOf(one, unitOf)}.`;
  });
}

/** What no length of a spring tells. */
export function springNotes({ free, loads }: JobSpring): string[] {
  const isGood = free?.cells.some(({ verdict }) => verdict === 'in') ?? false;
  const isWeak = loads.some(({ cells }) => cells.some(({ verdict }) => verdict === 'out'));
  return [
    ...(isGood && isWeak
      ? [
          'By its free length alone it would pass; its load says that it is not the drawing’s spring any more, or never was.',
        ]
      : []),
    SPRING_NOTE,
  ];
}

export const springBlock = (spring: JobSpring, unitOf = sheetUnit): Block => ({
  title: springTitle(spring),
  lines: springLines(spring, unitOf),
  notes: springNotes(spring),
});

/** What depths round a ring go into, and what their picture cannot know. */
export function ringLines({ into = [] }: CardColumn, unitOf = sheetUnit): string[] {
  const lines = into.map(({ characteristic: c, judgement }) => {
    const { operand, governing, verdicts, worstAt } = judgement;
    const verdict = verdictWords(governing && verdicts[governing]?.verdict);
    return `It goes into ${c.name}: ${operandWords(c, operand, unitOf(c))}${worstAt ? ` at ${placeWords(worstAt)}` : ''}${verdict === '' ? '' : `, ${verdict}`}.${c.note === undefined ? '' : ` ${c.note}`}`;
  });
  return [...lines, 'The points are drawn evenly round, the first on top.'];
}

const outOf = (known: number, all: number): string => (known === 0 ? 'not measured' : `${known} of ${all}`);
const outs = (cells: readonly (PlaceCell | undefined)[]): string => {
  const count = (verdict: string): number => cells.filter((cell) => cell?.verdict === verdict).length;
  return [
    ...(count('out') > 0 ? [`${count('out')} OUT`] : []),
    ...(count('cannot-tell') > 0 ? [`${count('cannot-tell')} CANNOT TELL`] : []),
  ].join(', ');
};

/** `24 of 24, 6 OUT`: what stands in a map, before it is opened. */
export function cellsInShort(cells: readonly (PlaceCell | undefined)[]): string {
  const all = cells.filter((cell) => cell !== undefined);
  const told = outs(all);
  return [
    outOf(all.filter(({ operand }) => operand).length, all.length),
    ...(told === '' ? [] : [told]),
  ].join(', ');
}

/** The same of a face, whose spots have no verdict each. */
export function faceInShort({ spots, measured, judged }: JobFace): string {
  const { governing, verdicts } = judged?.judgement ?? {};
  const verdict = verdictWords(governing && verdicts?.[governing]?.verdict);
  return [outOf(measured, spots.length), ...(verdict === '' ? [] : [verdict])].join(', ');
}
