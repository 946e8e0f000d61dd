import { type Answer, type FilledCircuit, type PrimingDrive, priming, primingWords } from '@fettle/book';
import { useMemo } from 'preact/hooks';
import { Mark } from '../../parts/verdict.tsx';
import { book } from '../../state/job.ts';

const DRIVES: Readonly<Record<PrimingDrive['by'], string>> = {
  starter: 'On the starter',
  drill: 'By a drill',
};

function Lifts({ verdict }: { readonly verdict: Answer }) {
  return (
    <span class="small-verdict">
      <Mark status={verdict} /> <strong>{primingWords.LIFTS[verdict]}</strong>
    </span>
  );
}

/** Whether the pump lifts oil to itself dry, and what to do. */
export function PrimingSection({ circuit }: { readonly circuit: FilledCircuit }) {
  const now = book.value;
  const answer = useMemo(() => priming(now, circuit), [now, circuit]);
  if (!answer.ok) return <p>{answer.issues[0]?.message}</p>;
  return (
    <>
      <p>{primingWords.primingQuestion(now, answer.value)}</p>
      <ul class="lines">
        {answer.value.drives.map((drive) => {
          const { by, speed, dry, sealed } = primingWords.driveWords(now, drive);
          return (
            <li key={by}>
              <strong>
                {DRIVES[by]}, pump at {speed}:
              </strong>{' '}
              dry {dry} <Lifts verdict={drive.dryVerdict} />; gaps sealed by oil or packing {sealed}{' '}
              <Lifts verdict={drive.sealedVerdict} />
            </li>
          );
        })}
      </ul>
      <h4>What to do</h4>
      <ol class="steps">
        {primingWords.primingSteps(now, answer.value).map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      {primingWords.PRIMING_CAUTIONS.map((one) => (
        <p key={one} class="caution">
          Caution: {one}
        </p>
      ))}
      {primingWords.primingGrounds(answer.value).map((ground) => (
        <p key={ground} class="soft">
          {ground}
        </p>
      ))}
    </>
  );
}
