import { pressureUnit, pressureVerdict, pressureWords, wantedPressure, wantedWords } from '@fettle/book';
import { SmallVerdict } from '../../parts/verdict.tsx';
import { book } from '../../state/job.ts';
import type { Predicted } from './prediction.ts';

/** The pressure at idle, to be read from across the bench. */
export function Headline({ idle }: { readonly idle: Predicted }) {
  const now = book.value;
  const unit = pressureUnit(now);
  const wanted = wantedPressure(now.sheet, idle);
  const verdict = wanted && pressureVerdict(wanted, idle.measured);
  return (
    <p class="figure" role="status">
      {pressureWords(idle.measured, unit)} at {idle.speedWords}, {idle.temperatureWords}
      {verdict ? (
        <>
          {' '}
          <SmallVerdict status={verdict} />
        </>
      ) : null}
      <br />
      <small>
        {wanted ? `Wanted ${wantedWords(wanted)}. ` : ''}As new it would be {pressureWords(idle.asNew, unit)},
        by the sheet’s own figures, which carry no band.
      </small>
    </p>
  );
}
