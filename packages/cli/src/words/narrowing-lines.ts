import { type Book, type Narrowing, placeText } from '@fettle/book';
import { coverageFactor, expanded, inUnit, standardUncertainty } from '@fettle/core';
import type { Condition } from './oil-lines.ts';
import { pressureUnit, pressureWords } from './pressure.ts';
import { heading, table, wrapped } from './table.ts';

/** So many readings and causes are printed; the rest only for programs. */
const ROWS = 8;

/** Which readings, taken better, would narrow the band of the predicted pressure. */
export function narrowingLines(book: Book, condition: Condition, found: Narrowing): string[] {
  const unit = pressureUnit(book);
  const decimals = unit === 'bar' ? 3 : 2;
  const U = expanded(found.pressure).U;
  const u = standardUncertainty(found.pressure);
  const title = heading(
    `What would narrow the band at ${condition.speedWords} and ${condition.words}: ${pressureWords(found.pressure, unit)}`,
  );
  const unmeasured =
    found.unmeasured.length > 0
      ? `Not measured, so without any band and without a part in it: ${found.unmeasured.map(({ name }) => name).join(', ')}. Measuring them may move the figure itself.`
      : '';
  if (u === 0)
    return [...title, '  Nothing that was measured leaves a doubt in this pressure.', ...said(unmeasured)];
  const band = (left: number): string => `±${inUnit((left / u) * U, unit).toFixed(decimals)} ${unit}`;
  const rows = found.readings
    .slice(0, ROWS)
    .map(({ characteristic, instrumentName, readings, without, finest }) => [
      characteristic.name,
      `${readings.length === 1 ? readings[0]!.said : `${readings.length} readings`}`,
      instrumentName,
      band(without),
      finest ? `${finest.name}: ${band(finest.left)}` : 'no finer one',
    ]);
  const [best] = found.readings;
  const causes = found.causes.slice(0, ROWS).map(({ cause, of, share }) => [
    `${Math.round(share * 100)} %`.padStart(5),
    {
      instrument: `${of}: the error common to all it read`,
      readings: `${of}: the readings' own errors`,
      bracket: `${of}: only leaves bound it`,
      other: of,
    }[cause],
  ]);
  return [
    ...title,
    ...table([['readings', 'said', 'taken with', 'without error', 'by the finest owned'], ...rows], '  '),
    '',
    ...said(best ? bestWords(best, best.without / u, band) : ''),
    ...said(unmeasured),
    '',
    '  The variance by its causes:',
    ...table(causes, '  '),
    ...said(
      `First order, at a coverage factor of ${coverageFactor(0.95, Number.POSITIVE_INFINITY).toFixed(2)}; each row is reckoned anew with its readings alone bettered, so rows do not add up. Entries: --json.`,
    ),
  ];
}

const said = (text: string): string[] =>
  text === '' ? [] : wrapped(text, 104, '  ').map((line, i) => (i === 0 ? `  ${line}` : line));

/** A band narrowed by less than this is hardly narrower. */
const WORTH = 0.9;

function bestWords(
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

/** The same figures for programs, in SI. */
export const narrowingJson = (
  condition: Condition,
  { pressure, causes, readings, unmeasured }: Narrowing,
) => ({
  speed: condition.speed,
  temperature: condition.temperature,
  pressure: pressure.value,
  standard_uncertainty: standardUncertainty(pressure),
  causes,
  readings: readings.map(({ characteristic, instrument, readings: those, without, share, finest }) => ({
    characteristic: characteristic.id,
    instrument,
    readings: those,
    standard_uncertainty_without: without,
    share_of_variance: share,
    finest: finest && { instrument: finest.instrument, standard_uncertainty: finest.left },
  })),
  unmeasured: unmeasured.map(({ id }) => id),
});
