import {
  type Body,
  type Entry,
  type GaugeJudgement,
  gaugeJudgement,
  startUpWords,
  wantedWords,
} from '@fettle/book';
import { useMemo } from 'preact/hooks';
import { heavy } from '../../state/heavy.ts';
import { book } from '../../state/job.ts';
import { STATUS_WORDS } from '../../words/judgement.ts';

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
  const { answer, stop, wanted } = judgement.value;
  const words = startUpWords.answerWords(judgement.value);
  return (
    <div class={stop ? 'judged stop' : 'judged'}>
      <p class="answer">
        <span aria-hidden="true">{stop ? '■' : MARKS[answer]} </span>
        {words.charAt(0).toUpperCase() + words.slice(1)}.{stop ? ` ${startUpWords.STOP_NOW}` : ''}
      </p>
      <p>
        {startUpWords.besideWords(now, judgement.value)}.
        {wanted
          ? ` The sheet wants ${wantedWords(wanted.limit)}: ${STATUS_WORDS[wanted.verdict].toLowerCase()}.`
          : ''}
        {answer === 'higher' ? ` ${startUpWords.HIGHER}` : ''}
        {stop ? ' Then weigh the faults, below.' : ''}
      </p>
    </div>
  );
}
