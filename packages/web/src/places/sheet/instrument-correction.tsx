import { admittedCorrection } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { book, write } from '../../state/job.ts';

/** Readings that a failed check reopened, corrected by what it found: only where all are off by just that. */
export function InstrumentCorrection({ instrument }: { readonly instrument: string }) {
  const reopening = new Set(book.value.reopened.values());
  const check = book.value.instrumentChecks
    .filter(({ entry, body }) => body.instrument === instrument && reopening.has(entry.id))
    .at(-1);
  const [add, setAdd] = useState('');
  const [doubt, setDoubt] = useState('');
  const [why, setWhy] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const keep = async (event: Event): Promise<void> => {
    event.preventDefault();
    const admitted = admittedCorrection(book.value, { check: check?.entry.id ?? '', add, doubt, why });
    if (!admitted.ok) return setIssues(admitted.issues);
    const entries = await write([{ kind: 'readings-corrected', body: admitted.value }]);
    setIssues(entries.ok ? [] : entries.issues);
  };
  return (
    <form class="form two" onSubmit={(event) => void keep(event)}>
      <p class="wide">
        A correction holds only where the error was there for every one of these readings and was the same: a
        zero that was off all day. Else take them again.
      </p>
      <label>
        Add to each
        <input
          value={add}
          placeholder="-0.0005 in"
          maxLength={80}
          onInput={(event) => setAdd(event.currentTarget.value)}
        />
      </label>
      <label>
        Known to ±, at about 95 %
        <input
          value={doubt}
          placeholder="0.0002 in"
          maxLength={80}
          onInput={(event) => setDoubt(event.currentTarget.value)}
        />
      </label>
      <label class="wide">
        Why all are off by just that
        <input value={why} maxLength={500} onInput={(event) => setWhy(event.currentTarget.value)} />
      </label>
      <div class="wide">
        <IssueLines issues={issues} />
        <button type="submit">Correct them</button>
      </div>
    </form>
  );
}
