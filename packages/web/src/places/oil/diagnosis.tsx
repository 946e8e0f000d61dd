import { type Diagnosis, diagnosisWords, diagnosisWorking } from '@fettle/book';
import { useEffect, useState } from 'preact/hooks';
import { BlockShown } from '../../parts/block.tsx';
import { Choice } from '../../parts/choice.tsx';
import { FoldOut } from '../../parts/fold-out.tsx';
import { book } from '../../state/job.ts';
import type { WeighedFaults } from './diagnosis-weighed.ts';
import { GROUNDS, type Grounds } from './grounds.ts';
import { NextTest } from './next-test.tsx';
import { useWorked } from './worked.ts';

/** From what the gauge showed back to what could be wrong. Weighed when it is asked for. */
export function DiagnosisSection() {
  const now = book.value;
  const [grounds, setGrounds] = useState<Grounds>('measured');
  const [asked, setAsked] = useState(false);
  // What was weighed with other readings, or on other grounds, no longer stands.
  useEffect(() => setAsked(false), [now, grounds]);
  const { answer, busy } = useWorked(asked ? { about: 'faults', grounds } : undefined);
  const found = busy ? undefined : answer;
  return (
    <section class="diagnosis">
      <h2>If the gauge disappoints: what could be wrong</h2>
      <Choice legend="The engine" name="grounds" options={GROUNDS} value={grounds} choose={setGrounds} />
      <button type="button" disabled={asked && busy} onClick={() => setAsked(true)}>
        Weigh the faults
      </button>
      <div role="status">{asked && busy ? <p>Weighing …</p> : null}</div>
      {found && !found.ok
        ? found.issues.map(({ code, message }) => (
            <p key={code} class="issue">
              {message}
            </p>
          ))
        : null}
      {found?.ok ? <Found weighed={found.value} /> : null}
    </section>
  );
}

function Found({ weighed: { diagnosis, calibration, parameters } }: { readonly weighed: WeighedFaults }) {
  const { readings, leftOut, alike } = diagnosis;
  const gauges = new Set(readings.map(({ instrument }) => instrument)).size;
  const strain = diagnosisWords.strainWords(diagnosis);
  return (
    <>
      <p>
        {readings.length === 0
          ? diagnosisWords.NO_READINGS
          : `By ${readings.length} gauge reading${readings.length > 1 ? 's' : ''}.`}
      </p>
      {leftOut.map((one) => (
        <p key={one.entry} class="soft">
          {diagnosisWords.leftOutWords(one)}
        </p>
      ))}
      <h3>How likely each is</h3>
      <Families diagnosis={diagnosis} />
      {strain ? <p class="issue">{strain}</p> : null}
      {alike.length > 0 ? <h3>What the gauge cannot say</h3> : null}
      {alike.map((group) => (
        <p key={group.map(({ id }) => id).join()}>{diagnosisWords.alikeWords(group, gauges)}</p>
      ))}
      <NextTest diagnosis={diagnosis} />
      {calibration ? (
        <>
          <h3>The model’s own constants</h3>
          <p>{diagnosisWords.calibrationWords(calibration)}</p>
          {calibration.readings.length > 0 ? (
            <ul class="lines">
              {calibration.constants.map((one) => (
                <li key={one.doubt.id}>{diagnosisWords.constantWords(one)}</li>
              ))}
            </ul>
          ) : null}
        </>
      ) : null}
      <p class="soft">{diagnosisWords.DIAGNOSIS_GROUNDS}</p>
      <FoldOut summary="Show the working of the diagnosis">
        {() =>
          diagnosisWorking(book.value, diagnosis, parameters).map((block) => (
            <BlockShown key={block.title} block={block} />
          ))
        }
      </FoldOut>
    </>
  );
}

function Families({ diagnosis }: { readonly diagnosis: Diagnosis }) {
  const { shown, rest } = diagnosisWords.byLikelihood(diagnosis);
  const most = Math.max(...shown.map(({ probability }) => probability));
  return (
    <>
      <ul class="families">
        {shown.map((one) => (
          <li key={one.family.id}>
            <span class="offer-name">
              <strong>{one.family.name}</strong>
              <strong>{diagnosisWords.percent(one.probability)}</strong>
            </span>
            <svg class="likely" viewBox="0 0 100 1" preserveAspectRatio="none" aria-hidden="true">
              <rect width={(100 * one.probability) / most} height="1" />
            </svg>
            <span class="soft">{diagnosisWords.severityWords(one)}</span>
          </li>
        ))}
      </ul>
      {rest === '' ? null : <p class="soft">{rest}</p>}
    </>
  );
}
