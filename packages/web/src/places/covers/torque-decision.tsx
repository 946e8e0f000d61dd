import { type TorqueAssessment, torqueDecided } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { write } from '../../state/job.ts';

/** That a logged torque stands although the threads were otherwise or a cover was opened: by whom, and why. */
export function TorqueDecision({ torque }: { readonly torque: TorqueAssessment }) {
  const [why, setWhy] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  return (
    <form
      class="form"
      onSubmit={async (event) => {
        event.preventDefault();
        const body = torqueDecided(torque, {}, why);
        if (!body.ok) return setIssues(body.issues);
        const entries = await write([{ kind: 'torque-decided', body: body.value }]);
        setIssues(entries.ok ? [] : entries.issues);
        if (entries.ok) setWhy('');
      }}
    >
      <label>
        Why does what was logged stand? Your name and this stay in the book.
        <input value={why} onInput={(event) => setWhy(event.currentTarget.value)} />
      </label>
      <IssueLines issues={issues} />
      <div>
        <button type="submit">It stands</button>
      </div>
    </form>
  );
}
