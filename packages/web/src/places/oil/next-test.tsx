import { type Diagnosis, diagnosisWords, pressureUnit } from '@fettle/book';
import { book } from '../../state/job.ts';

/** What to try next, by what it is expected to tell. */
export function NextTest({ diagnosis }: { readonly diagnosis: Diagnosis }) {
  const [next] = diagnosis.tests;
  if (!next) return null;
  const { plan, outcomes } = next;
  const unit = pressureUnit(book.value);
  const little = diagnosisWords.littleToldWords(next);
  const waiting = diagnosisWords.waitingWords(diagnosis);
  const further = diagnosisWords.furtherTests(diagnosis);
  return (
    <>
      <h3>The next test: {plan.name}</h3>
      {little ? <p>{little}</p> : null}
      <p>{diagnosisWords.testWords(next)}</p>
      {plan.cautions.map((caution) => (
        <p key={caution} class="caution">
          Caution: {caution}
        </p>
      ))}
      <ul class="lines">
        {(outcomes.length > 1 ? outcomes : []).map((one) => (
          <li key={`${one.from} ${one.to} ${one.words}`}>
            <strong>{diagnosisWords.outcomeWords(next, one, unit)}</strong> (chance{' '}
            {diagnosisWords.percent(one.chance)}): {diagnosisWords.leadingWords(diagnosis.order, one)}
          </li>
        ))}
      </ul>
      {waiting ? <p>{waiting}</p> : null}
      {further.length > 0 ? (
        <p class="soft">
          Others:{' '}
          {further
            .map((one) => `${one.plan.name} (${one.bits.toFixed(2)} bit, about ${one.plan.hours} h)`)
            .join('; ')}
          .
        </p>
      ) : null}
    </>
  );
}
