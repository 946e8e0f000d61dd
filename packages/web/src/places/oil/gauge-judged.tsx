import { type Body, type Entry, type GaugeJudgement, gaugeJudgement } from '@fettle/book';
import { useMemo } from 'preact/hooks';
import { heavy } from '../../state/heavy.ts';
import { book } from '../../state/job.ts';
import { ANSWERS, besideWords } from './gauge-words.ts';

const MARKS: Readonly<Record<GaugeJudgement['answer'], string>> = {
  'as-expected': '✓',
  lower: '▼',
  higher: '▲',
  'no-pressure': '✕',
};

interface Judged {
  readonly entry: Entry;
  readonly body: Body<'gauge-reading'>;
}

/** One reading of the gauge held beside what the clearances foretell there. */
export function GaugeJudged({ entry, body }: Judged) {
  const now = book.value;
  const { catalogue } = heavy.value;
  const judgement = useMemo(
    () => gaugeJudgement(now, catalogue, { entry, body }),
    [now, catalogue, entry, body],
  );
  if (!judgement.ok) return <p class="issue">Not judged: {judgement.issues[0]?.message}</p>;
  const { answer, stop } = judgement.value;
  return (
    <div class={stop ? 'judged stop' : 'judged'}>
      <p class="answer">
        <span aria-hidden="true">{stop ? '■' : MARKS[answer]} </span>
        {ANSWERS[answer]}
        {stop && (answer === 'as-expected' || answer === 'higher') ? ', but under what the sheet wants' : ''}
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
