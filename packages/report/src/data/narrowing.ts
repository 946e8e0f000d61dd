import { narrowing, narrowingWords, placeText, pressureWords, type Reckoning } from '@fettle/book';
import { CATALOGUE, standardUncertainty } from '@fettle/core';
import { printableText } from '../printable.ts';
import type { Prediction } from './prediction.ts';

/** On paper the first few tell enough. */
const ROWS = 5;

/** Which readings, measured better, would narrow the band of the pressure at idle most. Null without a prediction. */
export function narrowingPages(reckoning: Reckoning, { rows: [idle], unit }: Prediction) {
  if (!idle) return null;
  const found = narrowing(reckoning, CATALOGUE, idle.condition);
  if (!found.ok) return null;
  const u = standardUncertainty(found.value.pressure);
  const [best] = found.value.readings;
  const band = narrowingWords.bandWords(found.value, unit);
  const worded = u > 0 && best;
  return {
    at: `${idle.condition.crank}, ${idle.condition.sump}`,
    pressure: pressureWords(found.value.pressure, unit),
    said: [
      worded ? narrowingWords.bestWords(best, best.without / u, band) : narrowingWords.NO_DOUBT,
      narrowingWords.unmeasuredWords(found.value),
    ].filter((words) => words !== ''),
    readings: (worded ? found.value.readings : []).slice(0, ROWS).map((one) => ({
      name: one.characteristic.name,
      where: printableText(placesOf(one.readings)),
      with: printableText(one.instrumentName),
      without: band(one.without),
      finest: one.finest
        ? `${band(one.finest.left)} by ${printableText(one.finest.name)}`
        : 'no finer one owned',
    })),
    causes: worded ? narrowingWords.causesWords(found.value) : '',
    grounds: worded ? narrowingWords.NARROWING_GROUNDS : '',
  };
}

/** The places where they are few, else how many there are. */
function placesOf(readings: readonly { readonly place: Readonly<Record<string, string>> }[]): string {
  const places = readings.map(({ place }) => placeText(place)).filter((text) => text !== '');
  if (places.length > 0 && places.length <= 4) return places.join(', ');
  return readings.length === 1 ? 'one reading' : `${readings.length} readings`;
}
