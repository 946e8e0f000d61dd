import { decidingWords, type Proposal, proposalsOf } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useMemo, useState } from 'preact/hooks';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { assessed, book, write } from '../../state/job.ts';
import { moveWords } from '../../words/judgement.ts';
import { DecisionForm, sizesAt } from '../sheet/decision-form.tsx';
import { usePlanned } from './planned.ts';

/** What the verdicts would have of each part; the owner takes it or decides otherwise. */
export function Decisions() {
  const planned = usePlanned();
  const now = book.value;
  const { judgements } = assessed.value;
  const found = useMemo(
    () => (planned ? proposalsOf(now, judgements, planned.repairs.taken) : undefined),
    [now, judgements, planned],
  );
  if (!found)
    return (
      <section>
        <h2>Decisions</h2>
        <p class="soft">Working it out …</p>
      </section>
    );
  const groups = [
    {
      head: 'To be decided',
      list: found.filter((one) => !one.decided && !isPlain(one)),
      none: 'Nothing that is out or undecided waits for a decision.',
    },
    { head: 'Can be used again', list: found.filter((one) => !one.decided && one.because === 'in') },
    { head: 'Decided', list: found.filter((one) => one.decided) },
  ];
  const silent = found.filter((one) => !one.decided && isPlain(one) && one.because !== 'in');
  return (
    <section class="deciding">
      <p class="soft">
        A proposal is no decision. It rests on the readings named with it; the owner takes it, or decides
        otherwise and says why.
      </p>
      {planned?.repairs.because ? <p>{planned.repairs.because.message}</p> : null}
      {groups.map(({ head, list, none }) =>
        list.length === 0 && none === undefined ? null : (
          <div key={head}>
            <h2>
              {head}
              {list.length > 0 ? `: ${list.length}` : ''}
            </h2>
            {list.length === 0 ? <p>{none}</p> : null}
            <Proposals list={list} />
          </div>
        ),
      )}
      {silent.length > 0 ? (
        <FoldOut summary={`Not read yet, or not judged: ${silent.length}`}>
          {() => <Proposals list={silent} />}
        </FoldOut>
      ) : null}
    </section>
  );
}

const Proposals = ({ list }: { readonly list: readonly Proposal[] }) => (
  <ul class="lines">
    {list.map((one) => (
      <li key={one.part.id}>
        <FoldOut
          summary={
            <>
              {one.part.name}: <span class="word">{summaryWords(one)}</span>
            </>
          }
        >
          {() => <Told proposal={one} />}
        </FoldOut>
      </li>
    ))}
  </ul>
);

const isPlain = ({ because }: Proposal): boolean => ['in', 'not-judged', 'not-read'].includes(because);

function summaryWords(one: Proposal): string {
  const decided = decidingWords.decidedWords(one);
  if (decided === undefined) return decidingWords.proposedWords(one);
  return `${decided}${one.agrees === false && one.decision ? `, otherwise than proposed (${decidingWords.proposedWords(one)})` : ''}`;
}

function Told({ proposal }: { readonly proposal: Proposal }) {
  const { part, position, out, undecided, outWith, price, chosen, cost, ways, decided } = proposal;
  const now = book.value;
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [otherwise, setOtherwise] = useState(false);
  const take = async (): Promise<void> => {
    if (!proposal.decision) return;
    const entries = await write([
      {
        kind: 'disposition',
        body: {
          part: part.id,
          decision: proposal.decision,
          why: decidingWords.evidenceWords(now, proposal),
          ...(proposal.size !== undefined && { size: proposal.size }),
        },
      },
    ]);
    setIssues(entries.ok ? [] : entries.issues);
  };
  const others = ways.filter((way) => !chosen.includes(way));
  return (
    <div class="told">
      {decided ? (
        <p>
          Decided: {decidingWords.decidedWords(proposal)}. {decided.body.why}{' '}
          <span class="soft">{decided.entry.who}.</span>
        </p>
      ) : null}
      <p>
        {decided ? 'Proposed: ' : ''}
        {decidingWords.reasonWords(proposal)}
      </p>
      <ul class="evidence">
        {decidingWords.evidenceLines(now, proposal).map((line) => (
          <li key={line}>{line}</li>
        ))}
        {outWith.map(({ judgement, with: partners }) => (
          <li key={decidingWords.judgedName(judgement)}>
            Out together with {partners.map((id) => now.parts.get(id)?.name ?? id).join(', ')}:{' '}
            {decidingWords.judgedName(judgement)}
          </li>
        ))}
      </ul>
      {out.length === 0
        ? undecided.map((one) =>
            one.next ? <p key={decidingWords.judgedName(one)}>Next: {moveWords(one, one.next)}</p> : null,
          )
        : null}
      {price === undefined ? null : <p>Price {decidingWords.waysWords(chosen, proposal)}</p>}
      {others.length > 0 ? (
        <p class="soft">Also on record: {decidingWords.waysWords(others, proposal)}</p>
      ) : null}
      {cost
        ? decidingWords.reuseWords(part.name, cost, proposal).map((line, i) => (
            <p key={line} class={i > 0 ? 'soft' : undefined}>
              {line}
            </p>
          ))
        : null}
      <IssueLines issues={issues} />
      <div class="row">
        {proposal.decision && proposal.agrees !== true ? (
          <button type="button" onClick={() => void take()}>
            {decidingWords.takeWords(proposal)}
          </button>
        ) : null}
        <button type="button" aria-expanded={otherwise} onClick={() => setOtherwise(!otherwise)}>
          Decide otherwise
        </button>
      </div>
      {otherwise ? (
        <div class="form two">
          <DecisionForm part={part.id} sizes={sizesAt(position)} />
        </div>
      ) : null}
    </div>
  );
}
