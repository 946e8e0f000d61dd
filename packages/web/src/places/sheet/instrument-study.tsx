import { admittedStudy, adoptedStudy, type Body, chestWords, studyWorked } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { book, write } from '../../state/job.ts';
import { Keyed } from './keyed.tsx';
import { unitRead } from './unit-read.ts';

type Instrument = Body<'instrument-declared'>;
type Readings = Body<'repeat-study'>['readings'];

/** One thing read over and over, or several parts on several days: what its owner's hand adds. */
export function InstrumentStudy({ body }: { readonly body: Instrument }) {
  const [what, setWhat] = useState('');
  const [part, setPart] = useState('');
  const [occasion, setOccasion] = useState('');
  const [text, setText] = useState('');
  const [unit, setUnit] = useState(unitRead(body));
  const [readings, setReadings] = useState<Readings>([]);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const worked =
    readings.length > 1 ? studyWorked(book.value.instruments, body.instrument, readings) : undefined;
  const next = (): void => {
    if (text.trim() === '') return;
    setReadings([
      ...readings,
      {
        ...(part.trim() !== '' && { part: part.trim() }),
        ...(occasion.trim() !== '' && { occasion: occasion.trim() }),
        value: `${text} ${unit}`,
      },
    ]);
    setText('');
    setIssues([]);
  };
  const keep = async (): Promise<void> => {
    const admitted = admittedStudy(book.value, {
      instrument: body.instrument,
      what: what.trim() === '' ? 'one thing' : what.trim(),
      readings,
    });
    if (!admitted.ok) return setIssues(admitted.issues);
    const entries = await write([{ kind: 'repeat-study', body: admitted.value }]);
    setIssues(entries.ok ? [] : entries.issues);
    if (entries.ok) setReadings([]);
  };
  return (
    <form
      class="form two"
      onSubmit={(event) => {
        event.preventDefault();
        next();
      }}
    >
      <p class="wide">
        Read the same place again and again, lifting the tool off each time, without looking at the last
        figure. Ten say enough.
      </p>
      <label>
        What you read
        <input
          value={what}
          placeholder="main journal 1, front"
          maxLength={200}
          onInput={(event) => setWhat(event.currentTarget.value)}
        />
      </label>
      <div class="wide">
        <FoldOut summary={<span class="soft">Several parts, on several days or by several people</span>}>
          {() => (
            <div class="form two">
              <label>
                Part
                <input value={part} maxLength={60} onInput={(event) => setPart(event.currentTarget.value)} />
              </label>
              <label>
                Day or person
                <input
                  value={occasion}
                  maxLength={60}
                  onInput={(event) => setOccasion(event.currentTarget.value)}
                />
              </label>
            </div>
          )}
        </FoldOut>
      </div>
      <Keyed
        fields={[{ label: `Reading ${readings.length + 1}`, text, set: setText }]}
        at={0}
        go={() => undefined}
        unit={unit}
        setUnit={setUnit}
      />
      <div class="wide row">
        <button type="submit" class="main-move" disabled={text.trim() === ''}>
          Next reading
        </button>
        <button
          type="button"
          disabled={readings.length === 0}
          onClick={() => setReadings(readings.slice(0, -1))}
        >
          Take the last back
        </button>
      </div>
      <div class="wide">
        {readings.length > 0 ? (
          <p class="readings-said">
            {readings
              .map(({ part: of, occasion: on, value }) =>
                `${[of, on].filter(Boolean).join('/')} ${value}`.trim(),
              )
              .join(' · ')}
          </p>
        ) : null}
        {worked?.ok ? (
          <div role="status">
            {chestWords.studySentences(body.name, worked.value).map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
          </div>
        ) : null}
        <IssueLines issues={worked && !worked.ok ? worked.issues : issues} />
        <button type="button" disabled={!worked?.ok} onClick={() => void keep()}>
          Keep this study
        </button>
      </div>
      <Kept body={body} />
    </form>
  );
}

/** Studies kept before, the last first. */
function Kept({ body }: { readonly body: Instrument }) {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const own = book.value.studies.filter((study) => study.body.instrument === body.instrument).reverse();
  const adopt = async (id: string): Promise<void> => {
    const admitted = adoptedStudy(book.value, id);
    if (!admitted.ok) return setIssues(admitted.issues);
    const entries = await write([{ kind: 'instrument-declared', body: admitted.value }]);
    setIssues(entries.ok ? [] : entries.issues);
  };
  return (
    <div class="wide">
      {own.map(({ entry, body: study }) => {
        const worked = studyWorked(book.value.instruments, study.instrument, study.readings);
        const taken = body.study === entry.id;
        return (
          <section key={entry.id} class="kept-study">
            <h4>
              {study.what}
              {taken ? ', adopted' : ''}
            </h4>
            {worked.ok && !taken
              ? chestWords
                  .studySentences(body.name, worked.value)
                  .map((sentence) => <p key={sentence}>{sentence}</p>)
              : null}
            {taken ? null : (
              <button type="button" onClick={() => void adopt(entry.id)}>
                Adopt it
              </button>
            )}
          </section>
        );
      })}
      <IssueLines issues={issues} />
    </div>
  );
}
