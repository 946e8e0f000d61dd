import { partSought } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { go, hashOf } from '../../route.ts';
import { book, job } from '../../state/job.ts';

/** A tag typed or scanned: a scanner that types ends with Enter, so that no key is needed. */
export function FindPart() {
  const [text, setText] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const found = (): void => {
    const part = partSought(book.value, text);
    setIssues(part.ok ? [] : part.issues);
    if (!part.ok) return;
    setText('');
    go(hashOf(job.value ?? '', 'part', part.value.id));
  };
  return (
    <form
      class="find-part"
      onSubmit={(event) => {
        event.preventDefault();
        found();
      }}
    >
      <label for="tag-typed">Find a part by its tag: type the five signs, or scan it</label>
      <div class="row">
        <input
          id="tag-typed"
          value={text}
          autocomplete="off"
          autocapitalize="characters"
          spellcheck={false}
          aria-describedby="tag-issues"
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <button type="submit">Find it</button>
      </div>
      <IssueLines issues={issues} id="tag-issues" />
    </form>
  );
}
