import { type Diagnosis, pressureUnit } from '@fettle/book';
import { book } from '../../state/job.ts';
import { leading, percent, rangeWords } from './diagnosis-words.ts';

/** A test that tells less is not worth its work [bit]. */
const TELLING = 0.05;

/** What to try next, by what it is expected to tell. */
export function NextTest({ diagnosis }: { readonly diagnosis: Diagnosis }) {
  const { tests, order, known, when } = diagnosis;
  const [next, ...others] = tests;
  if (!next) return null;
  const { plan, probe, bits, outcomes } = next;
  const unit = probe?.measures === 'flow' ? 'L/min' : pressureUnit(book.value);
  const further = others.filter((one) => one.bits >= TELLING);
  return (
    <>
      <h3>The next test: {plan.name}</h3>
      {bits < TELLING ? (
        <p>
          None of the tests known here would tell much more than is known already; this is the most telling.
        </p>
      ) : null}
      <p>
        {plan.how}
        {probe ? ` Read: ${probe.words}.` : ''} About {plan.hours} h of work (assumed), {bits.toFixed(2)} bit.
      </p>
      {plan.cautions.map((caution) => (
        <p key={caution} class="caution">
          Caution: {caution}
        </p>
      ))}
      <ul class="lines">
        {(outcomes.length > 1 ? outcomes : []).map((one) => (
          <li key={`${one.from} ${one.to} ${one.words}`}>
            <strong>{rangeWords(one, unit)}</strong> (chance {percent(one.chance)}):{' '}
            {leading(order, one.families)}
          </li>
        ))}
      </ul>
      {known === 'measured' && when === 'as-found' ? (
        <p>With the engine apart, what needs it running waits until it is together.</p>
      ) : null}
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
