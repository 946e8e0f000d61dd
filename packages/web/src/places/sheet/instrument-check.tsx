import { type Issue, kindsOf, parseQuantity } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { write } from '../../state/job.ts';

const kindsIn = (text: string) => kindsOf(text.trim().replace(/^[\d.,/\s+-]+/, ''));

function quantityIssues(at: string, text: string): Issue[] {
  if (kindsIn(text).some((kind) => parseQuantity(text, kind).ok)) return [];
  const got = text.trim() === '' ? 'nothing' : text.trim();
  return [
    {
      code: 'unit/unknown',
      at,
      got,
      wanted: 'a quantity with its unit',
      message: `${at}: ${got === 'nothing' ? 'nothing is typed' : `"${got}" is no quantity`}. Say it with its unit, such as 2.0000 in.`,
    },
  ];
}

/** An instrument held against a standard, and what it read there. One that failed puts its readings in doubt. */
export function InstrumentCheck({ instrument }: { readonly instrument: string }) {
  const [against, setAgainst] = useState('');
  const [read, setRead] = useState('');
  const [good, setGood] = useState(true);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const log = async (event: Event): Promise<void> => {
    event.preventDefault();
    const found = [...quantityIssues('Held against', against), ...quantityIssues('It read', read)];
    if (found.length === 0 && !kindsIn(against).some((kind) => kindsIn(read).includes(kind)))
      found.push({
        code: 'unit/wrong-kind',
        at: 'read',
        got: read,
        wanted: `a quantity like ${against}`,
        message: `It was held against ${against} and is said to have read ${read}: the two are not of one kind. Correct one of them.`,
      });
    if (found.length > 0) return setIssues(found);
    const body = { instrument, against: against.trim(), read: read.trim(), good };
    const entries = await write([{ kind: 'instrument-checked', body }]);
    setIssues(entries.ok ? [] : entries.issues);
    if (!entries.ok) return;
    setAgainst('');
    setRead('');
  };
  return (
    <form class="form two" onSubmit={(event) => void log(event)}>
      <label>
        Held against
        <input
          value={against}
          placeholder="2.0000 in"
          maxLength={80}
          onInput={(event) => setAgainst(event.currentTarget.value)}
        />
      </label>
      <label>
        It read
        <input
          value={read}
          placeholder="2.0001 in"
          maxLength={80}
          onInput={(event) => setRead(event.currentTarget.value)}
        />
      </label>
      <fieldset class="choice wide">
        <legend>So it is</legend>
        {[true, false].map((one) => (
          <label key={String(one)}>
            <input
              type="radio"
              name={`check-${instrument}`}
              checked={good === one}
              onChange={() => setGood(one)}
            />{' '}
            <span>{one ? 'Good' : 'Not good'}</span>
          </label>
        ))}
      </fieldset>
      <div class="wide">
        {good ? null : (
          <p class="caution">Its readings since the last good check are then in doubt: take them again.</p>
        )}
        <IssueLines issues={issues} />
        <button type="submit">Log the check</button>
      </div>
    </form>
  );
}
