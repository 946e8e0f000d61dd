import { positionsOf, positionWords } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import type { Draft } from '../../ledger/writing.ts';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { hashOf } from '../../route.ts';
import { book, job, write } from '../../state/job.ts';
import { FindPart } from '../part/find-part.tsx';
import { DecisionForm, decisionWords, sizesAt } from './decision-form.tsx';

/** What is fitted where: another part, or the same one come back machined, begins its readings anew. */
export function Parts() {
  const { sheet, positions, parts } = book.value;
  const all = sheet ? positionsOf(sheet) : [];
  return (
    <section>
      <h2>Parts, by where they go</h2>
      {parts.size === 0 ? null : <FindPart />}
      {all.length === 0 ? <p>The spec sheet names no positions.</p> : null}
      <ul class="lines">
        {all.map((at) => {
          const { id, name } = at;
          const fitted = positions.get(id)?.now;
          const part = fitted && parts.get(fitted.part);
          const { current } = part ?? {};
          return (
            <li key={id}>
              <FoldOut
                summary={
                  <>
                    {positionWords(at)}{' '}
                    <span class="soft">
                      {part && current
                        ? `${part.name === name ? '' : `${part.name}, `}${current.condition}${current.size ? `, ${current.size}` : ''}${part.states.length > 1 ? `, ${current.what}` : ''}${decided(part.id)}`
                        : 'nothing entered'}
                    </span>
                  </>
                }
              >
                {() => (
                  <>
                    {part ? (
                      <p>
                        <a class="button" href={hashOf(job.value ?? '', 'part', part.id)}>
                          {part.name}: its tag and what is read on it
                        </a>
                      </p>
                    ) : null}
                    <PartForm position={id} name={name} part={part?.id} />
                  </>
                )}
              </FoldOut>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

const decided = (part: string): string => {
  const words = decisionWords(part);
  return words === undefined ? '' : `; ${words}`;
};

interface Form {
  readonly position: string;
  readonly name: string;
  readonly part: string | undefined;
}

type Condition = 'used' | 'new' | 'machined';

function PartForm({ position, name, part }: Form) {
  const [called, setCalled] = useState(name);
  const [condition, setCondition] = useState<Condition>(part === undefined ? 'used' : 'new');
  const [what, setWhat] = useState('');
  const [size, setSize] = useState('');
  const [blasted, setBlasted] = useState(false);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const { parts } = book.value;
  const sizes = sizesAt(position);
  const spare = [...parts.values()].filter(
    ({ id }) => ![...book.value.positions.values()].some(({ now }) => now?.part === id),
  );
  const enter = async (drafts: readonly Draft[]): Promise<void> => {
    const entries = await write(drafts);
    setIssues(entries.ok ? [] : entries.issues);
  };
  const entered = (): Draft[] => {
    let id = position;
    for (let i = 2; parts.has(id); i++) id = `${position}-${i}`;
    return [
      {
        kind: 'part-entered',
        body: { part: id, name: called.trim() || name, condition, ...(size !== '' && { size }) },
      },
      { kind: 'part-fitted', body: { position, part: id } },
    ];
  };
  const reworked = (): void => {
    if (part === undefined) return;
    if (what.trim() === '') {
      setIssues([
        {
          code: 'part/what-missing',
          at: 'what',
          got: 'nothing',
          wanted: 'what was done',
          message: 'Say what was done to it, such as ground .010 under.',
        },
      ]);
      return;
    }
    void enter([
      {
        kind: 'part-reworked',
        body: {
          part,
          what: what.trim(),
          condition: 'machined',
          ...(size !== '' && { size }),
          ...(blasted && { blasted: true as const }),
        },
      },
    ]);
  };
  const sizeChoice = (
    <label>
      Size
      <select value={size} onChange={(event) => setSize(event.currentTarget.value)}>
        <option value="">as standard</option>
        {sizes.map((one) => (
          <option key={one.name}>{one.name}</option>
        ))}
      </select>
    </label>
  );
  return (
    <div class="form two">
      <IssueLines issues={issues} />
      {part === undefined ? null : (
        <>
          <DecisionForm part={part} sizes={sizes} />
          <h3 class="wide">It came back from the machine shop</h3>
          <label>
            What was done
            <input value={what} onInput={(event) => setWhat(event.currentTarget.value)} />
          </label>
          {sizeChoice}
          <label class="check wide">
            <input
              type="checkbox"
              checked={blasted}
              onChange={(event) => setBlasted(event.currentTarget.checked)}
            />
            It was blasted: it is held until every passage was opened, washed, blown and seen through
          </label>
          <div class="wide">
            <button type="button" onClick={reworked}>
              Measure it anew from here
            </button>
          </div>
        </>
      )}
      <h3 class="wide">{part === undefined ? 'Enter the part' : 'Another part goes here'}</h3>
      <label>
        Called
        <input value={called} onInput={(event) => setCalled(event.currentTarget.value)} />
      </label>
      <label>
        It is
        <select value={condition} onChange={(event) => setCondition(event.currentTarget.value as Condition)}>
          <option>used</option>
          <option>new</option>
          <option>machined</option>
        </select>
      </label>
      {part === undefined ? sizeChoice : null}
      <div class="wide row">
        <button type="button" onClick={() => void enter(entered())}>
          Enter and fit it
        </button>
        {spare.slice(0, 6).map(({ id, name: word }) => (
          <button
            key={id}
            type="button"
            onClick={() => void enter([{ kind: 'part-fitted', body: { position, part: id } }])}
          >
            Fit {word}
          </button>
        ))}
      </div>
    </div>
  );
}
