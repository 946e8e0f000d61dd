import { fromUnit, type Issue, inUnit, type Quantity, writtenNumber } from '@fettle/core';
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
function likelyMeant(said: Quantity, band: Band): string[] {
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

/**
 * The question a reading raises, if any: it is far outside what such a part can be, or a slip of one digit
 * explains it. It is kept when its writer confirms it.
 *
 * @param u  standard uncertainty of the reading [SI]
 */
export function questionOfReading(
  characteristic: Characteristic,
  size: string | undefined,
  said: Quantity,
  u: number,
): Issue | undefined {
  const band = plausibleBand(characteristic, size);
  if (!band || inside(band, said.value)) return undefined;
  const outside = said.value < band.from ? band.from - said.value : said.value - band.to;
  const meant = likelyMeant(said, band);
  if (outside <= FAR * u && meant.length === 0) return undefined;
  const shown = (si: number): string => `${Number(inUnit(si, said.unit).toPrecision(9))}`;
  const between = `${shown(band.from)} to ${shown(band.to)} ${said.unit}`;
  const suggestion = meant.length > 0 ? ` Was it ${meant.slice(0, 3).join(' or ')} ${said.unit}?` : '';
  return {
    code: 'reading/implausible',
    at: characteristic.id,
    got: said.text,
    wanted: between,
    message: `${characteristic.name}: ${said.text} is outside ${between}, which is new to twice worn.${suggestion} Read it again and correct it, or confirm it as it is.`,
  };
}
