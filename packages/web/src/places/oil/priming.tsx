import { type Answer, type FilledCircuit, type PrimingDrive, priming } from '@fettle/book';
import { expanded, inUnit, printQuantity, type Uncertain } from '@fettle/core';
import { useMemo } from 'preact/hooks';
import { Mark } from '../../parts/verdict.tsx';
import { book } from '../../state/job.ts';
import { PRIMING_CAUTIONS, primingSteps, rpm } from './priming-words.ts';

const DRIVES: Readonly<Record<PrimingDrive['by'], string>> = {
  starter: 'On the starter',
  drill: 'By a drill',
};

function spread(q: Uncertain, unit: string, decimals: number): string {
  const U = inUnit(expanded(q).U, unit);
  return `${inUnit(q.value, unit).toFixed(decimals)}${U > 0 ? ` ±${U.toFixed(decimals)}` : ''} ${unit}`;
}

const LIFTS: Readonly<Record<Answer, string>> = {
  in: 'lifts it',
  out: 'does not lift it',
  'cannot-tell': 'cannot tell',
};

function Lifts({ verdict }: { readonly verdict: Answer }) {
  return (
    <span class="small-verdict">
      <Mark status={verdict} /> <strong>{LIFTS[verdict]}</strong>
    </span>
  );
}

/** Whether the pump lifts oil to itself dry, and what to do. */
export function PrimingSection({ circuit }: { readonly circuit: FilledCircuit }) {
  const now = book.value;
  const answer = useMemo(() => priming(now, circuit), [now, circuit]);
  if (!answer.ok) return <p>{answer.issues[0]?.message}</p>;
  const { lift, drives, gaps, temperature } = answer.value;
  const unit = /[a-z]+$/i.exec(now.sheet?.oil?.priming?.lift ?? '')?.[0] ?? 'mm';
  const missing = gaps.filter(({ measured }) => !measured).map(({ name }) => name);
  return (
    <>
      <p>
        Does the pump lift oil {printQuantity(lift, unit, 1)} to itself, at{' '}
        {printQuantity(temperature, 'degC', 0)}?
      </p>
      <ul class="lines">
        {drives.map(({ by, speed, dry, dryVerdict, sealed, sealedVerdict }) => (
          <li key={by}>
            <strong>
              {DRIVES[by]}, pump at {rpm(speed)}:
            </strong>{' '}
            dry {spread(dry, unit, 2)} <Lifts verdict={dryVerdict} />; gaps sealed by oil or packing{' '}
            {spread(sealed, unit, 0)} <Lifts verdict={sealedVerdict} />
          </li>
        ))}
      </ul>
      {missing.length > 0 ? <p>Not measured, taken as new: {missing.join(', ')}.</p> : null}
      <h4>What to do</h4>
      <ol class="steps">
        {primingSteps(now, answer.value).map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      {PRIMING_CAUTIONS.map((one) => (
        <p key={one} class="caution">
          Caution: {one}
        </p>
      ))}
      <p class="soft">
        The model: isothermal air in laminar slots; what the mesh carries back is left out, so the true lift
        is smaller. “Sealed” is held to what dissolved air allows (17 kPa under the air outside: common
        practice, no source).
      </p>
    </>
  );
}
