import { type Narrowing, narrowingWords, pressureUnit, pressureWords } from '@fettle/book';
import { standardUncertainty } from '@fettle/core';
import { book } from '../../state/job.ts';
import { grade } from './grade-choice.tsx';
import type { Prediction } from './prediction.ts';
import { useWorked } from './worked.ts';

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
  const u = standardUncertainty(found.pressure);
  const words = narrowingWords.unmeasuredWords(found);
  const unmeasured = words === '' ? null : <p>{words}</p>;
  if (u === 0)
    return (
      <>
        <p>{narrowingWords.NO_DOUBT}</p>
        {unmeasured}
      </>
    );
  const band = narrowingWords.bandWords(found, unit);
  const [best] = found.readings;
  return (
    <>
      <p>
        At {at}: {pressureWords(found.pressure, unit)}.{' '}
        {best ? narrowingWords.bestWords(best, best.without / u, band) : ''}
      </p>
      {unmeasured}
      <ul class="lines">
        {found.readings.slice(0, narrowingWords.NARROWING_ROWS).map((one) => (
          <li key={`${one.characteristic.id} ${one.instrument} ${one.readings[0]?.entry}`}>
            <strong>{one.characteristic.name}</strong> (
            {one.readings.length === 1 ? one.readings[0]!.said : `${one.readings.length} readings`}, taken
            with {one.instrumentName}): {band(one.without)} without error
            {one.finest ? `; ${band(one.finest.left)} by ${one.finest.name}` : '; no finer one owned'}.
          </li>
        ))}
      </ul>
      <p>{narrowingWords.causesWords(found)}</p>
      <p class="soft">{narrowingWords.NARROWING_GROUNDS}</p>
    </>
  );
}
