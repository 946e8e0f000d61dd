import { expanded, inUnit, standardUncertainty } from '@fettle/core';
import type { DoubtCause } from '../oil/doubt-causes.ts';
import type { Narrowing } from '../oil/narrowing.ts';
import { placeText } from '../sheet/places.ts';
import { pressureDecimals } from './pressure.ts';

/** So many readings and causes are told to a person; the rest only to programs. */
export const NARROWING_ROWS = 8;

/** A band narrowed by less than this is hardly narrower. */
const WORTH = 0.9;

export const NO_DOUBT = 'Nothing that was measured leaves a doubt in this pressure.';

/** How a band that is left is written: `±0.41 psi`, at the coverage of the pressure's own. One figure more than it. */
export function bandWords({ pressure }: Narrowing, unit: string): (left: number) => string {
  const perPascal = expanded(pressure).U / standardUncertainty(pressure);
  const decimals = pressureDecimals(unit) + 1;
  return (left) => `±${inUnit(left * perPascal, unit).toFixed(decimals)} ${unit}`;
}

export const causeWords = ({ cause, of }: DoubtCause): string =>
  ({
    instrument: `${of}: the error common to all it read`,
    readings: `${of}: the readings' own errors`,
    bracket: `${of}: only leaves bound it`,
    offer: `${of}: what the offer leaves open`,
    other: of,
  })[cause];

/** Where the variance comes from, the greatest cause first. */
export const causesWords = ({ causes }: Narrowing): string =>
  `The variance by its causes: ${causes
    .slice(0, NARROWING_ROWS)
    .map((one) => `${Math.round(one.share * 100)} % ${causeWords(one)}`)
    .join('; ')}.`;

/** How the rows are to be read. */
export const NARROWING_GROUNDS =
  'First order; each row is reckoned anew with its readings alone bettered, so rows do not add up.';

/** What was not measured has no band; empty where all was. */
export const unmeasuredWords = ({ unmeasured }: Narrowing): string =>
  unmeasured.length === 0
    ? ''
    : `Not measured, so without any band and without a part in it: ${unmeasured.map(({ name }) => name).join(', ')}. Measuring them may move the figure itself.`;

/**
 * Which reading narrows the band most, and with what.
 *
 * @param left  share of the band that is left without its error
 * @param band  words for a band of that standard uncertainty [Pa]
 */
export function bestWords(
  { characteristic, readings, finest, without }: Narrowing['readings'][number],
  left: number,
  band: (left: number) => string,
): string {
  const places = readings.map(({ place }) => placeText(place)).filter((text) => text !== '');
  const where = places.length > 0 && places.length <= 12 ? ` at ${places.join(', ')}` : '';
  const how = finest
    ? `The finest instrument owned that takes it, ${finest.name}, would leave ${band(finest.left)}.`
    : 'No finer instrument that takes it is owned.';
  const verdict =
    left > WORTH
      ? `No single reading narrows it much: the doubt is spread over many. Most would come from ${characteristic.name}${where}: at best ${band(without)}.`
      : `${characteristic.name}${where}, measured better, narrows it most: at best ${band(without)}.`;
  return `${verdict} ${how}`;
}
