import { fromUnit, type Issue, inUnit, type Quantity, type QuantityKind, writtenNumber } from '@fettle/core';
import { limitsOf } from '../assess/limits.ts';
import type { Characteristic } from '../sheet/sheet.ts';

/** Between these a reading raises no eyebrow [SI]. */
interface Band {
  readonly from: number;
  readonly to: number;
}

/** How many standard uncertainties outside the band a reading may lie before it is asked about. */
const FAR = 10;

/**
 * From the limits for new parts to the wear limit and as much wear again. Without both limit sets there is no band.
 */
export function plausibleBand(characteristic: Characteristic, size: string | undefined): Band | undefined {
  const fresh = limitsOf(characteristic, 'new', size);
  const worn = limitsOf(characteristic, 'wear', size);
  if (!fresh || !worn) return undefined;
  const again = (limit: number | undefined, wear: number | undefined): number | undefined =>
    wear === undefined ? limit : limit === undefined ? undefined : wear + (wear - limit);
  const from = least(fresh.lower, again(fresh.lower, worn.lower));
  const to = greatest(fresh.upper, again(fresh.upper, worn.upper));
  return { from: from ?? Number.NEGATIVE_INFINITY, to: to ?? Number.POSITIVE_INFINITY };
}

const defined = (values: readonly (number | undefined)[]): number[] => values.filter((v) => v !== undefined);
const least = (...values: (number | undefined)[]) =>
  defined(values).length ? Math.min(...defined(values)) : undefined;
const greatest = (...values: (number | undefined)[]) =>
  defined(values).length ? Math.max(...defined(values)) : undefined;

/** Last bits of a conversion do not put a reading outside. */
const inside = ({ from, to }: Band, value: number): boolean => {
  const slack = 1e-9 * Math.abs(value);
  return value >= from - slack && value <= to + slack;
};

/**
 * The same digits with two neighbours swapped, or with one digit other than the last two changed:
 * the slips of a tired hand. Only those that land inside the band.
 */
function digitsMeant(said: Quantity, band: Band): string[] {
  const { digits } = said;
  const places = [...digits].flatMap((character, i) => (/\d/.test(character) ? [i] : []));
  const put = (changes: readonly (readonly [number, string])[]): string => {
    const characters = [...digits];
    for (const [i, digit] of changes) characters[i] = digit;
    return characters.join('');
  };
  const swapped = places.slice(1).map((i, k) =>
    put([
      [places[k]!, digits[i]!],
      [i, digits[places[k]!]!],
    ]),
  );
  const changed = places
    .slice(0, -2)
    .flatMap((i) => [...'0123456789'].filter((d) => d !== digits[i]).map((d) => put([[i, d]])));
  return [...new Set([...swapped, ...changed])].filter((text) => {
    const number = writtenNumber(text);
    return number.ok && inside(band, fromUnit(number.value.value, said.unit));
  });
}

/** Units that lie beside one another at a bench, so that one is said for another. Common practice, no source. */
const TAKEN_FOR: Readonly<Partial<Record<QuantityKind, readonly string[]>>> = {
  length: ['in', 'thou', 'mm', 'um'],
  torque: ['lbf.ft', 'lbf.in', 'N.m', 'kgf.m'],
  pressure: ['psi', 'bar', 'kPa'],
  force: ['lbf', 'N', 'kgf'],
  stiffness: ['lbf/in', 'N/mm'],
  mass: ['g', 'oz'],
  volume: ['cm3', 'in3'],
  temperature: ['degC', 'degF'],
};

/** What the same number would be in another unit of its kind, where that lands inside the band. */
export function unitsMeant(said: Quantity, kind: QuantityKind, band: Band): string[] {
  const number = inUnit(said.value, said.unit);
  return (TAKEN_FOR[kind] ?? [])
    .filter((unit) => unit !== said.unit && inside(band, fromUnit(number, unit)))
    .map((unit) => `${said.digits} ${unit}`);
}

/** How many times beyond its limits a reading may lie where only one set of them is given. */
const TIMES = 5;
/** How many widths of the limits a slip of a digit is looked for beyond them, likewise. */
const WIDTHS = 3;

/** Where no question arises, where a slip is looked for, and what that is in words. */
interface Bands {
  readonly quiet: Band;
  readonly meant: Band;
  readonly words: string;
}

function bandsOf(characteristic: Characteristic, size: string | undefined): Bands | undefined {
  const both = plausibleBand(characteristic, size);
  if (both) return { quiet: both, meant: both, words: 'which is new to twice worn' };
  const { lower, upper } =
    limitsOf(characteristic, 'new', size) ?? limitsOf(characteristic, 'wear', size) ?? {};
  // Limits around zero have no size to be five times off; a lower one alone may be exceeded by anything.
  if (upper === undefined || upper <= 0 || (lower !== undefined && lower <= 0)) return undefined;
  const width = upper - (lower ?? 0);
  return {
    quiet: { from: lower === undefined ? Number.NEGATIVE_INFINITY : lower / TIMES, to: upper * TIMES },
    meant: {
      from: lower === undefined ? 0 : Math.max(lower / TIMES, lower - WIDTHS * width),
      to: upper + WIDTHS * width,
    },
    words: 'more than five times off its limits',
  };
}

/** How many standard uncertainties a used part may seem better than new before that is asked about. */
const UNWORN = 3;

/** On the side from which it wears, a used part cannot lie beyond what it was when it was new. */
function unwornLimit(
  characteristic: Characteristic,
  size: string | undefined,
  said: Quantity,
  u: number,
): { limit: number; words: string } | undefined {
  const fresh = limitsOf(characteristic, 'new', size);
  const worn = limitsOf(characteristic, 'wear', size);
  if (!fresh || !worn) return undefined;
  const shrinks = fresh.lower !== undefined && worn.lower !== undefined && worn.lower < fresh.lower;
  const grows = fresh.upper !== undefined && worn.upper !== undefined && worn.upper > fresh.upper;
  if (shrinks === grows) return undefined;
  const beyond = (over: number): boolean => over > UNWORN * u + 1e-9 * Math.abs(said.value);
  if (shrinks && fresh.upper !== undefined && beyond(said.value - fresh.upper))
    return { limit: fresh.upper, words: 'at most' };
  if (grows && fresh.lower !== undefined && beyond(fresh.lower - said.value))
    return { limit: fresh.lower, words: 'at least' };
  return undefined;
}

/**
 * The question a reading raises, if any: it is far outside what such a part can be, a used part would have worn the
 * wrong way, or a slip of one digit or of the unit explains it. It is kept when its writer confirms it.
 *
 * @param u     standard uncertainty of the reading [SI]
 * @param used  whether it was read on a used part, so that it cannot be better than new
 */
export function questionOfReading(
  characteristic: Characteristic,
  size: string | undefined,
  said: Quantity,
  u: number,
  used = false,
): Issue | undefined {
  const bands = bandsOf(characteristic, size);
  if (!bands || characteristic.kind === 'seen') return undefined;
  const { quiet, meant } = bands;
  const alone = quiet !== meant && inside(quiet, said.value);
  const unworn = used ? unwornLimit(characteristic, size, said, u) : undefined;
  if (inside(meant, said.value) && !unworn) return undefined;
  const digits = digitsMeant(said, meant);
  // A unit has slipped only where the reading is nowhere near what it should be.
  const units = alone ? [] : unitsMeant(said, characteristic.kind, meant);
  const outside = said.value < quiet.from ? quiet.from - said.value : said.value - quiet.to;
  if (!unworn && digits.length + units.length === 0 && (alone || outside <= FAR * u)) return undefined;
  const shown = (si: number): string => `${Number(inUnit(si, said.unit).toPrecision(9))}`;
  const between =
    meant.from <= 0
      ? `up to ${shown(meant.to)} ${said.unit}`
      : `${shown(meant.from)} to ${shown(meant.to)} ${said.unit}`;
  const offered = [...units, ...digits.map((text) => `${text} ${said.unit}`)].slice(0, 3);
  const suggestion = offered.length > 0 ? ` Was it ${offered.join(' or ')}?` : '';
  const why = unworn
    ? `would be better than new (${unworn.words} ${shown(unworn.limit)} ${said.unit}): its wear would have to be negative.`
    : alone
      ? `is outside ${between}, and one slip of a digit explains it.`
      : `is outside ${between}, ${quiet === meant ? bands.words : `and ${bands.words}`}.`;
  return {
    code: unworn ? 'reading/negative-wear' : 'reading/implausible',
    at: characteristic.id,
    got: said.text,
    wanted: between,
    message: `${characteristic.name}: ${said.text} ${why}${suggestion} Read it again and correct it, or confirm it as it is.`,
  };
}

/** Whether an issue only asks: its writer may confirm what was said. */
export const isQuestion = ({ code }: Issue): boolean =>
  code === 'reading/implausible' || code === 'reading/negative-wear';

/** What a question offers instead of what was said, each with its unit. */
export const offeredBy = ({ message }: Issue): string[] =>
  /Was it (.+?)\?/.exec(message)?.[1]?.split(' or ') ?? [];
