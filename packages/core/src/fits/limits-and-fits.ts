import { failed, type Outcome, ok } from '../issue.ts';
import { type Metre, metre } from '../units/si.ts';
import {
  CLEARANCE,
  FINE_BANDS,
  INTERFERENCE,
  MAIN_BANDS,
  STANDARD_TOLERANCES,
  TRANSITION,
} from './tolerance-tables.ts';

/** Limits of size as deviations from the nominal one [m]. */
export interface Deviations {
  readonly lower: Metre;
  readonly upper: Metre;
}

const COVERED =
  'letters D E F G H JS K M N P R S T U (holes) and d e f g h js k m n p r s t u (shafts) with grades 5 to 11, holes K to grade 8';
/** Dividing keeps -25 µm at -0.000025, where multiplying would leave binary dust. */
const PER_METRE = 1e6;

/** Position of a size in bands that end at and include the given sizes. */
const bandOf = (bands: readonly number[], mm: number) => bands.findIndex((end) => mm <= end);
const millimetres = (size: Metre) => Number((size * 1000).toFixed(6));

/**
 * Standard tolerance of a grade from 5 to 11 for a size over 0 up to 500 mm [m].
 *
 * @source iso-286-1
 */
export function standardTolerance(size: Metre, grade: number): Metre | undefined {
  const band = bandOf(MAIN_BANDS, millimetres(size));
  const micrometres = size > 0 && grade >= 5 ? STANDARD_TOLERANCES[grade]?.[band] : undefined;
  return micrometres === undefined ? undefined : metre(micrometres / PER_METRE);
}

/**
 * Deviations of a tolerance class such as `H7` (hole) or `g6` (shaft) at a nominal size, from the standard's tables.
 * Holes from K on carry Δ = ITn − IT(n−1) where the standard gives it: K, M, N to grade 8, P and beyond to grade 7.
 *
 * @param size  over 0 up to and including 500 mm [m]
 * @source iso-286-1, iso-286-2
 */
export function toleranceDeviations(size: Metre, designation: string): Outcome<Deviations> {
  const mm = millimetres(size);
  const match = /^\s*([A-Za-z]{1,2})\s*(\d{1,2})\s*$/.exec(designation);
  if (!match) return notCovered(designation);
  if (!(mm > 0 && mm <= 500)) {
    return failed({
      code: 'fit/size-not-covered',
      at: 'size',
      got: `${mm} mm`,
      wanted: 'over 0 up to 500 mm',
      message: 'The tables held here end at 500 mm. Give a size within them.',
    });
  }
  const letter = match[1]!;
  const grade = Number(match[2]);
  const main = bandOf(MAIN_BANDS, mm);
  const width = grade >= 5 && grade <= 11 ? STANDARD_TOLERANCES[grade]?.[main] : undefined;
  if (width === undefined) return notCovered(designation);
  if (letter === 'js' || letter === 'JS') return between(-width / 2, width / 2);
  const lowerCase = letter.toLowerCase();
  const isShaft = letter === lowerCase;
  if (!isShaft && letter !== letter.toUpperCase()) return notCovered(designation);
  const gap = CLEARANCE[lowerCase]?.[main];
  if (gap !== undefined) return isShaft ? between(-gap - width, -gap) : between(gap, gap + width);
  const lift = TRANSITION[lowerCase]?.[main] ?? INTERFERENCE[lowerCase]?.[bandOf(FINE_BANDS, mm)];
  if (lift === undefined) return notCovered(designation, lowerCase === 't' ? mm : undefined);
  if (isShaft) {
    const lower = lowerCase === 'k' && grade >= 8 ? 0 : lift;
    return between(lower, lower + width);
  }
  const upper = holeUpper(lowerCase, grade, main, lift);
  return upper === undefined ? notCovered(designation) : between(upper - width, upper);
}

/** Upper deviation of a hole from the shaft of the same letter. */
function holeUpper(letter: string, grade: number, band: number, lift: number): number | undefined {
  const step = (STANDARD_TOLERANCES[grade]![band] ?? 0) - (STANDARD_TOLERANCES[grade - 1]![band] ?? 0);
  // Up to 3 mm the standard gives no Δ.
  const delta = band === 0 ? 0 : step;
  // The one cell the standard sets apart from its own rule: M6 over 250 up to 315 mm.
  if (letter === 'm' && grade === 6 && band === 10) return -9;
  if (letter === 'k') return grade <= 8 ? -lift + delta : undefined;
  if (letter === 'm') return grade <= 8 ? -lift + delta : -lift;
  if (letter === 'n') return grade <= 8 ? -lift + delta : band === 0 ? -lift : 0;
  return grade <= 7 ? -lift + delta : -lift;
}

const between = (lower: number, upper: number): Outcome<Deviations> =>
  ok({ lower: metre(lower / PER_METRE), upper: metre(upper / PER_METRE) });

function notCovered(designation: string, below24?: number): Outcome<never> {
  const also = below24 === undefined ? '' : '; t begins over 24 mm';
  return failed({
    code: 'fit/class-not-covered',
    at: 'designation',
    got: designation,
    wanted: COVERED + also,
    message: `This tolerance class is not in the tables held here. They hold ${COVERED}${also}.`,
  });
}
