import { admittedCheck, type Body, type CheckState, INSTRUMENT_TYPES } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { book, write } from '../../state/job.ts';
import { Keyed } from './keyed.tsx';
import { unitRead } from './unit-read.ts';

interface Given {
  readonly body: Body<'instrument-declared'>;
  readonly state: CheckState;
}

const WHEN = [
  ['before', 'Before the readings'],
  ['after', 'After them'],
] as const;

/** An instrument held against something known. Its own figures say whether it is good. */
export function InstrumentCheck({ body, state }: Given) {
  const last = /^([-+\d.]+)\s*(.*)$/.exec(state.last?.body.against ?? '');
  const [against, setAgainst] = useState(last?.[1] ?? '0');
  const [read, setRead] = useState('');
  const [unit, setUnit] = useState(last?.[2] || unitRead(body));
  const [at, go] = useState(1);
  // What was not read since the last good check is before; what was, is after.
  const [when, setWhen] = useState<'before' | 'after'>(state.since > 0 ? 'after' : 'before');
  const [limit, setLimit] = useState('');
  const [broken, setBroken] = useState(false);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const said = {
    instrument: body.instrument,
    against: `${against} ${unit}`,
    read: read.trim() === '' ? '' : `${read} ${unit}`,
    ...(limit.trim() !== '' && { limit }),
    failed: broken,
    when,
  };
  const worked = read.trim() === '' ? undefined : admittedCheck(book.value, said);
  const log = async (event: Event): Promise<void> => {
    event.preventDefault();
    const admitted = admittedCheck(book.value, said);
    if (!admitted.ok) return setIssues(admitted.issues);
    const entries = await write([{ kind: 'instrument-checked', body: admitted.value }]);
    setIssues(entries.ok ? [] : entries.issues);
    if (entries.ok) setRead('');
  };
  return (
    <form class="form two" onSubmit={(event) => void log(event)}>
      <p class="wide soft">Against {INSTRUMENT_TYPES.get(body.type)?.check ?? 'something that is known'}.</p>
      <Keyed
        fields={[
          { label: 'Held against', text: against, set: setAgainst },
          { label: 'It reads', text: read, set: setRead },
        ]}
        at={at}
        go={go}
        unit={unit}
        setUnit={setUnit}
      />
      <div class="wide">
        <p class="check-says" role="status">
          {worked === undefined
            ? 'Type what it reads.'
            : !worked.ok
              ? ''
              : worked.value.good
                ? '● Good.'
                : `✖ Failed. What was read with it since its last good check will have to be taken again.`}
        </p>
        <IssueLines issues={worked && !worked.ok ? worked.issues : issues} />
        <button type="submit" class={worked?.ok ? 'main-move' : undefined}>
          Log the check
        </button>
      </div>
      <div class="wide">
        <FoldOut
          summary={
            <span class="soft">
              {when === 'before' ? 'Before the readings' : 'After the readings'}, may be off by ±
              {limit.trim() === '' ? body.uncertainty.expanded : limit}
            </span>
          }
        >
          {() => (
            <>
              <fieldset class="choice wide">
                <legend>When</legend>
                {WHEN.map(([name, word]) => (
                  <label key={name}>
                    <input
                      type="radio"
                      name={`when-${body.instrument}`}
                      checked={when === name}
                      onChange={() => setWhen(name)}
                    />{' '}
                    <span>{word}</span>
                  </label>
                ))}
                <label>
                  <input
                    type="checkbox"
                    checked={broken}
                    onChange={(event) => setBroken(event.currentTarget.checked)}
                  />{' '}
                  <span>It drags or jumps</span>
                </label>
              </fieldset>
              <label class="wide">
                May be off by ±
                <input
                  value={limit}
                  placeholder={`${body.uncertainty.expanded}, its own`}
                  maxLength={80}
                  onInput={(event) => setLimit(event.currentTarget.value)}
                />
              </label>
            </>
          )}
        </FoldOut>
      </div>
    </form>
  );
}
