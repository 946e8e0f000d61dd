import {
  isQuestion,
  isTagAddress,
  partSought,
  type SpokenReading,
  spoken,
  spokenEntries,
} from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useRef, useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { go, hashOf } from '../../route.ts';
import { who } from '../../state/desk.ts';
import { book, job, write } from '../../state/job.ts';
import { instrumentOf } from '../../state/measuring.ts';
import { unitOf } from '../../state/units.ts';

interface Given {
  /** What is on the bench: meant where only places and numbers are said. */
  readonly at: string;
}

/**
 * Readings as one says them, dictated or typed by a wedge: read back with their places. What is said stays in the
 * field until it is entered.
 */
export function SaidLine({ at }: Given) {
  const [text, setText] = useState('');
  const [back, setBack] = useState<readonly string[]>([]);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const field = useRef<HTMLInputElement>(null);
  const enter = async (confirmed: boolean): Promise<void> => {
    // A scanner types what is on a tag where a reading would be said.
    const scanned = partSought(book.value, text);
    if (scanned.ok) return go(hashOf(job.value ?? '', 'part', scanned.value.id));
    if (isTagAddress(text)) return setIssues(scanned.issues);
    const outcome = await entered(text, at, confirmed);
    if ('issues' in outcome) return setIssues(outcome.issues);
    setIssues([]);
    setBack(outcome.back);
    setText('');
    field.current?.focus({ preventScroll: true });
  };
  return (
    <details class="said-line">
      <summary>Say it in words</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void enter(false);
        }}
      >
        <label for="said-words">
          As you would say it: “rod two front 2.1228, 2.1227”, then “no, 2.1238” to correct
        </label>
        <input
          id="said-words"
          ref={field}
          value={text}
          autocomplete="off"
          spellcheck={false}
          aria-describedby="said-back said-issues"
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <IssueLines issues={issues} id="said-issues" />
        {issues.some(isQuestion) ? (
          <button type="button" onClick={() => void enter(true)}>
            Keep it as it was said
          </button>
        ) : null}
        <button type="submit">Enter what was said</button>
      </form>
      <div id="said-back" role="status" aria-live="polite">
        {back.map((line) => (
          <p key={line}>
            <strong>{line}</strong>
          </p>
        ))}
      </div>
    </details>
  );
}

async function entered(
  text: string,
  at: string,
  confirmed: boolean,
): Promise<{ readonly back: readonly string[] } | { readonly issues: readonly Issue[] }> {
  const now = book.value;
  const mine = now.readings.findLast(
    ({ entry, standing }) => standing === 'counts' && entry.who === who.value,
  );
  const heard = spoken(now, text, { at, unit: unitOf, ...(mine && { last: mine }) });
  if (!heard.ok) return heard;
  const made = spokenEntries(now, heard.value, text, (one) => ({
    instrument: toolFor(one),
    ...(confirmed && { confirmed }),
  }));
  if (!made.ok) return made;
  const entries = await write(made.value);
  return entries.ok ? { back: heard.value.back.split('\n') } : entries;
}

/** The tool named, or the one that is taken for such a thing on this page. */
function toolFor(one: SpokenReading): string | undefined {
  const characteristic = book.value.characteristics.get(one.characteristic);
  return one.instrument ?? (characteristic && instrumentOf(characteristic)?.instrument);
}
