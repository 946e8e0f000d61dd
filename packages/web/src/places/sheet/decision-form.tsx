import { type Body, type Characteristic, placesOf, positionAt } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { book, write } from '../../state/job.ts';

type Decision = Body<'disposition'>['decision'];

const DECISIONS: readonly { readonly decision: Decision; readonly word: string; readonly done: string }[] = [
  { decision: 'reuse', word: 'Use it again', done: 'used again' },
  { decision: 'machine', word: 'Machine it', done: 'to be machined' },
  { decision: 'replace', word: 'Replace it', done: 'to be replaced' },
];

/** What was decided of a part, in a few words; undefined while nothing is. */
export function decisionWords(part: string): string | undefined {
  const body = book.value.dispositions.get(part)?.body;
  const done = DECISIONS.find(({ decision }) => decision === body?.decision)?.done;
  return done && `${done}${body?.size ? `, ${body.size}` : ''}`;
}

/** The sizes of the sheet for what goes in one position, each once; every size where the sheet names none for it. */
export function sizesAt(position: string): readonly NonNullable<Characteristic['sizes']>[number][] {
  const { sheet, characteristics } = book.value;
  const sized = [...characteristics.values()].filter(({ sizes }) => sizes !== undefined);
  const here = sized.filter(
    (one) =>
      one.position !== undefined &&
      placesOf(sheet ?? { axes: {} }, one).some((place) => positionAt(one.position!, place) === position),
  );
  const named = (here.length > 0 ? here : sized).flatMap(({ sizes }) => sizes ?? []);
  return [...new Map(named.map((size) => [size.name, size])).values()];
}

interface Asked {
  readonly part: string;
  readonly sizes: readonly NonNullable<Characteristic['sizes']>[number][];
}

/** What becomes of a part, and why: the book is believed for its reasons. */
export function DecisionForm({ part, sizes }: Asked) {
  const before = book.value.dispositions.get(part);
  const [decision, setDecision] = useState<Decision>(before?.body.decision ?? 'reuse');
  const [size, setSize] = useState(before?.body.size ?? '');
  const [why, setWhy] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const decide = async (): Promise<void> => {
    if (why.trim() === '')
      return setIssues([
        {
          code: 'decision/why-missing',
          at: 'why',
          got: 'nothing',
          wanted: 'the reason',
          message: 'Say why, such as main 3 is under its limit. The decision is on record with its reason.',
        },
      ]);
    const entries = await write([
      {
        kind: 'disposition',
        body: { part, decision, why: why.trim(), ...(size !== '' && decision !== 'reuse' && { size }) },
      },
    ]);
    setIssues(entries.ok ? [] : entries.issues);
    if (entries.ok) setWhy('');
  };
  const cannotBeBought = decision !== 'reuse' && sizes.some((one) => one.name === size && !one.obtainable);
  return (
    <>
      <h3 class="wide">What becomes of it</h3>
      {before ? (
        <p class="wide">
          Decided: {decisionWords(part)}. {before.body.why}{' '}
          <span class="soft">{before.entry.who}. A later decision takes its place.</span>
        </p>
      ) : null}
      <label>
        Decision
        <select value={decision} onChange={(event) => setDecision(event.currentTarget.value as Decision)}>
          {DECISIONS.map((one) => (
            <option key={one.decision} value={one.decision}>
              {one.word}
            </option>
          ))}
        </select>
      </label>
      {decision === 'reuse' || sizes.length === 0 ? null : (
        <label>
          To which size
          <select value={size} onChange={(event) => setSize(event.currentTarget.value)}>
            <option value="">as standard</option>
            {sizes.map(({ name }) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
      )}
      <label class="wide">
        Why
        <input value={why} maxLength={2000} onInput={(event) => setWhy(event.currentTarget.value)} />
      </label>
      <div class="wide">
        {cannotBeBought ? <p class="caution">The sheet says that {size} cannot be bought.</p> : null}
        <IssueLines issues={issues} />
        <button type="button" onClick={() => void decide()}>
          Decide it so
        </button>
      </div>
    </>
  );
}
