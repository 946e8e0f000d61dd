import { circuitCautionWords, colderIsLess } from '@fettle/book';
import { useMemo } from 'preact/hooks';
import { Lazy } from '../../parts/lazy.tsx';
import { assessed, book } from '../../state/job.ts';
import { unmeasured } from '../../words/pressure.ts';
import { Curve } from './curve.tsx';
import { GradeChoice, grade } from './grade-choice.tsx';
import { Headline } from './headline.tsx';
import { isNothing, rowsLifted, thought, thoughtIn } from './lifted.ts';
import { type Prediction, predicted } from './prediction.ts';
import { Rests } from './rests.tsx';
import { SingleRepairs } from './single-repairs.tsx';
import { PressureStairs } from './stair.tsx';
import { Trials } from './trials.tsx';
import { Trying } from './trying.tsx';

const further = () => import('./further.tsx').then(({ Further }) => Further);

/** The pressure that these clearances would give, where the oil goes, and what each repair alone would bring. */
export function Oil() {
  const now = book.value;
  const { reckoning } = assessed.value;
  const chosen = grade.value;
  const outcome = useMemo(() => {
    try {
      return predicted(now, reckoning, chosen);
    } catch (error) {
      if (error instanceof RangeError) return error.message;
      throw error;
    }
  }, [now, reckoning, chosen]);
  const prediction = typeof outcome === 'object' && outcome.ok ? outcome.value : undefined;
  return (
    <main class="oil">
      <h1>Oil pressure</h1>
      {typeof outcome === 'string' ? <p class="issue">{outcome}</p> : null}
      {outcome === undefined ? <p>The spec sheet names no speeds, so there is nothing to show.</p> : null}
      {typeof outcome === 'object' && !outcome.ok
        ? outcome.issues.map(({ code, message }) => (
            <p key={code} class="issue">
              {message}
            </p>
          ))
        : null}
      {prediction ? <Shown prediction={prediction} /> : null}
      <Lazy load={further} given={{ prediction }} />
      {prediction ? <Rests prediction={prediction} /> : null}
    </main>
  );
}

function Shown({ prediction }: { readonly prediction: Prediction }) {
  const { circuit, rows } = prediction;
  const missing = unmeasured(circuit);
  const said = thought.value;
  const of = useMemo(() => thoughtIn(circuit, said), [circuit, said]);
  const outcome = useMemo(() => {
    try {
      return rowsLifted(circuit, rows, of);
    } catch (error) {
      if (error instanceof RangeError) return error.message;
      throw error;
    }
  }, [circuit, rows, of]);
  const withThem = typeof outcome === 'string' ? rows : outcome;
  return (
    <>
      <Headline idle={prediction.idle} />
      <GradeChoice />
      <Trying prediction={prediction} of={of} rows={withThem} />
      {typeof outcome === 'string' ? (
        <p class="issue">With what is tried there is no balance: {outcome}</p>
      ) : null}
      <div class="played">
        <PressureStairs prediction={prediction} of={of} />
        <section class="curve">
          <h2>Over the speeds</h2>
          <Curve rows={withThem} thought={!isNothing(of)} />
          <Trials rows={withThem} of={of} />
          <p class="soft">
            The bands are what the readings leave open, at about 95 %. The circuit’s own constants (discharge
            coefficients, eccentricities, film temperatures, leak paths) are assumed and carry no band: a real
            gauge outranks all of this.
            {colderIsLess(rows.map((row) => ({ ...row, value: row.measured.value })))
              ? ' Cold can show less than hot at speed: the relief valve holds the pressure at the pump, and thick oil loses more of it on the way to the gauge.'
              : ''}
            {missing.length > 0 ? ` Not measured, taken as new: ${missing.join(', ')}.` : ''}
          </p>
        </section>
      </div>
      {prediction.cautions.map((one) => (
        <p key={`${one.code} ${one.about ?? ''}`} class="caution">
          Caution: {circuitCautionWords(one)}
        </p>
      ))}
      <SingleRepairs prediction={prediction} />
    </>
  );
}
