import { IssueLines } from '../../parts/issue-lines.tsx';
import { job } from '../../state/job.ts';
import { faults, lastEntered, undoLast } from './entered.ts';

/** What was entered last, read back, and one tap to take it back. */
export function ReadBack() {
  const last = lastEntered.value;
  const mine = last && last.of === job.value ? last : undefined;
  return (
    <div class="read-back">
      <IssueLines issues={faults.value} />
      <div role="status" aria-live="polite">
        {mine ? (
          <p>
            Entered: <strong>{mine.words}</strong>
          </p>
        ) : null}
      </div>
      {mine ? (
        <button type="button" onClick={() => void undoLast()}>
          Undo <small>{mine.words}</small>
        </button>
      ) : null}
    </div>
  );
}
