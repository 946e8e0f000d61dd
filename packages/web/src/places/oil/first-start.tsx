import { type FilledCircuit, startUpWords } from '@fettle/book';
import { book } from '../../state/job.ts';
import { Expected } from './expected.tsx';
import { GaugeForm, nameOfWhen } from './gauge-form.tsx';
import { GaugeJudged } from './gauge-judged.tsx';
import { PrimingSection } from './priming.tsx';

/** Stop rules before all else; then priming, what the gauge should show, and the readings as they come. */
export function FirstStart({ circuit }: { readonly circuit?: FilledCircuit | undefined }) {
  const readings = book.value.gaugeReadings.filter(({ body }) => body.when !== 'as-found');
  return (
    <section class="first-start">
      <h2>First start</h2>
      <h3>Stop rules</h3>
      <ol class="stop-rules">
        {startUpWords.stopRules('weigh the faults below').map((rule) => (
          <li key={rule}>{rule}</li>
        ))}
      </ol>
      {startUpWords.START_CAUTIONS.map((one) => (
        <p key={one} class="caution">
          Caution: {one}
        </p>
      ))}
      {circuit ? (
        <>
          <h3>Before it: priming</h3>
          <PrimingSection circuit={circuit} />
          <h3>What the gauge should show</h3>
          <Expected />
        </>
      ) : null}
      <GaugeForm />
      {readings.length > 0 ? (
        <>
          <h3>Readings since start-up</h3>
          <ul class="lines">
            {readings.map((reading) => (
              <li key={reading.entry.id}>
                {nameOfWhen(reading.body.when)}, {reading.body.speed}
                {reading.body.temperature === undefined ? '' : `, ${reading.body.temperature}`}
                <GaugeJudged {...reading} />
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </section>
  );
}
