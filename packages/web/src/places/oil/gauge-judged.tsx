import { type Body, type Entry, gaugeJudgement } from '@fettle/book';
import { heavy } from '../../state/heavy.ts';
import { book } from '../../state/job.ts';
import { ANSWERS, besideWords } from './gauge-words.ts';

interface Judged {
  readonly entry: Entry;
  readonly body: Body<'gauge-reading'>;
}

/** One reading of the gauge held beside what the clearances foretell there. */
export function GaugeJudged({ entry, body }: Judged) {
  const now = book.value;
  const judgement = gaugeJudgement(now, heavy.value.catalogue, { entry, body });
  if (!judgement.ok) return <p class="issue">Not judged: {judgement.issues[0]?.message}</p>;
  const { answer, stop } = judgement.value;
  return (
    <div class={stop ? 'judged stop' : 'judged'}>
      <p class="answer">
        <span aria-hidden="true">
          {{ 'as-expected': '✓', lower: '▼', higher: '▲', 'no-pressure': '✕' }[answer]}{' '}
        </span>
        {ANSWERS[answer]}
        {stop ? '. STOP the engine, ignition off.' : ''}
      </p>
      <p>
        {besideWords(now, judgement.value)}
        {answer === 'higher'
          ? ' Do not rev it cold: oil thicker than said, a blocked passage or a stuck relief valve show so.'
          : ''}
        {stop ? ' Then weigh the faults, below.' : ''}
      </p>
    </div>
  );
}
