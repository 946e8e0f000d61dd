import { dueWords, moneyWords } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { book, write } from '../../state/job.ts';
import { whenWords } from '../../words/entry.ts';
import { Photos } from './photos.tsx';

/** What was known before it was opened, and what has been noted and photographed since. */
export function StoryAndNotes() {
  const { opened, notes } = book.value;
  const [text, setText] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const body = opened?.body;
  return (
    <section>
      <h2>Story</h2>
      <dl class="facts">
        {body?.owner ? (
          <>
            <dt>Owner</dt>
            <dd>{body.owner}</dd>
          </>
        ) : null}
        {body?.due ? (
          <>
            <dt>Due</dt>
            <dd>{dueWords(book.value)}</dd>
          </>
        ) : null}
        {body?.spending_cap !== undefined ? (
          <>
            <dt>To spend</dt>
            <dd>at most {moneyWords.money(body.spending_cap, moneyWords.currencyOf(book.value))}</dd>
          </>
        ) : null}
      </dl>
      <p>{body?.story ?? 'No story was told when the job was opened. Add what is known as a note.'}</p>
      <h2>Notes</h2>
      <ul class="lines">
        {notes.map(({ entry, body: note }) => (
          <li key={entry.id}>
            {note.text}{' '}
            <span class="soft">
              {entry.who}, {whenWords(entry.at)}
            </span>
          </li>
        ))}
      </ul>
      <form
        class="form"
        onSubmit={async (event) => {
          event.preventDefault();
          if (text.trim() === '') return;
          const entries = await write([{ kind: 'note', body: { text: text.trim() } }]);
          setIssues(entries.ok ? [] : entries.issues);
          if (entries.ok) setText('');
        }}
      >
        <label>
          Another note
          <textarea rows={3} value={text} onInput={(event) => setText(event.currentTarget.value)} />
        </label>
        <IssueLines issues={issues} />
        <div>
          <button type="submit">Note it</button>
        </div>
      </form>
      <Photos />
    </section>
  );
}
