import { type BetterReading, type Narrowing, placeText } from '@fettle/book';
import { expanded, inUnit, standardUncertainty } from '@fettle/core';
import { book } from '../../state/job.ts';
import { pressureUnit, pressureWords } from '../../words/pressure.ts';
import { grade } from './grade-choice.tsx';
import type { Prediction } from './prediction.ts';
import { useWorked } from './worked.ts';

/** So many readings and causes are shown. */
const ROWS = 8;
/** A band narrowed by less than this is hardly narrower. */
const WORTH = 0.9;

/** Which reading, measured better, would narrow the band at idle most. */
export function WhatNarrows({ prediction: { idle } }: { readonly prediction: Prediction }) {
  const { answer } = useWorked({
    about: 'narrowing',
    grade: grade.value,
    running: { speed: idle.speed, temperature: idle.temperature },
  });
  if (answer === undefined) return <p class="soft">Working it out …</p>;
  if (!answer.ok) return <p class="issue">{answer.issues[0]?.message}</p>;
  return <Found found={answer.value} at={`${idle.speedWords} and ${idle.temperatureWords}`} />;
}

function Found({ found, at }: { readonly found: Narrowing; readonly at: string }) {
  const unit = pressureUnit(book.value);
  const decimals = unit === 'bar' ? 3 : 2;
  const [U, u] = [expanded(found.pressure).U, standardUncertainty(found.pressure)];
  const unmeasured =
    found.unmeasured.length > 0 ? (
      <p>
        Not measured, so without any band and without a part in it:{' '}
        {found.unmeasured.map(({ name }) => name).join(', ')}. Measuring them may move the figure itself.
      </p>
    ) : null;
  if (u === 0)
    return (
      <>
        <p>Nothing that was measured leaves a doubt in this pressure.</p>
        {unmeasured}
      </>
    );
  const band = (left: number): string => `±${inUnit((left / u) * U, unit).toFixed(decimals)} ${unit}`;
  const [best] = found.readings;
  return (
    <>
      <p>
        At {at}: {pressureWords(found.pressure, unit)}. {best ? bestWords(best, best.without / u, band) : ''}
      </p>
      {unmeasured}
      <ul class="lines">
        {found.readings.slice(0, ROWS).map((one) => (
          <li key={`${one.characteristic.id} ${one.instrument} ${one.readings[0]?.entry}`}>
            <strong>{one.characteristic.name}</strong> (
            {one.readings.length === 1 ? one.readings[0]!.said : `${one.readings.length} readings`}, taken
            with {one.instrumentName}): {band(one.without)} without error
            {one.finest ? `; ${band(one.finest.left)} by ${one.finest.name}` : '; no finer one owned'}.
          </li>
        ))}
      </ul>
      <p>
        The variance by its causes:{' '}
        {found.causes
          .slice(0, ROWS)
          .map(({ cause, of, share }) => `${Math.round(share * 100)} % ${CAUSES[cause](of)}`)
          .join('; ')}
        .
      </p>
      <p class="soft">
        First order; each line is reckoned anew with its readings alone bettered, so they do not add up.
      </p>
    </>
  );
}

const CAUSES: Readonly<Record<Narrowing['causes'][number]['cause'], (of: string) => string>> = {
  instrument: (of) => `${of}: the error common to all it read`,
  readings: (of) => `${of}: the readings' own errors`,
  bracket: (of) => `${of}: only leaves bound it`,
  other: (of) => of,
};

function bestWords(
  { characteristic, readings, finest, without }: BetterReading,
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
