import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { Taps } from '../../parts/taps.tsx';
import { book, write } from '../../state/job.ts';
import { idFrom } from '../../words/id.ts';
import { Field } from './supply-form.tsx';

/** What most rebuilds want besides the parts. Common practice, no source. */
const USUAL = [
  'Gasket set',
  'Head gasket',
  'Seal set',
  'Oil',
  'Oil filter',
  'Assembly lubricant',
  'Thread sealant',
];

/** Something that has to be had and is no part decided on: one tap, or one's own words. */
export function WantForm() {
  const [name, setName] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const { wants } = book.value;
  const standing = [...wants.values()].filter(({ body }) => body.count > 0);
  const want = async (called: string, count: number, id = idFrom(called, 'wanted')): Promise<void> => {
    const entries = await write([{ kind: 'supply-wanted', body: { need: id, name: called, count } }]);
    setIssues(entries.ok ? [] : entries.issues);
    if (entries.ok) setName('');
  };
  const offered = USUAL.filter((one) => !standing.some(({ body }) => body.name === one));
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() !== '') void want(name.trim(), 1);
      }}
    >
      {standing.length > 0 ? (
        <ul class="lines">
          {standing.map(({ body }) => (
            <li key={body.need}>
              <div class="order">
                <p>
                  {body.count} {body.name}
                </p>
                <button
                  type="button"
                  aria-label={`${body.name}: no longer wanted`}
                  onClick={() => void want(body.name, 0, body.need)}
                >
                  No longer wanted
                </button>
              </div>
            </li>
          ))}
        </ul>
      ) : null}
      <Taps
        legend="Wanted by a tap"
        options={offered.map((value) => ({ value, words: value }))}
        chosen={undefined}
        choose={(one) => void want(one, 1)}
      />
      <Field name="Or in your own words" value={name} say={setName} />
      <IssueLines issues={issues} />
      <button type="submit">It is wanted</button>
    </form>
  );
}
