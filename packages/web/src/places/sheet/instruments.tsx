import { DEFAULT_UNCERTAINTIES } from '@fettle/book';
import { type Issue, kindsOf, parseQuantity } from '@fettle/core';
import { useState } from 'preact/hooks';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { book, write } from '../../state/job.ts';
import { whenWords } from '../../words/entry.ts';
import { InstrumentCheck } from './instrument-check.tsx';

const idFrom = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);

function readsAsUncertainty(text: string): boolean {
  if (text.trim().endsWith('%')) return parseQuantity(text, 'ratio').ok;
  const unit = text.trim().replace(/^[\d.,/\s+-]+/, '');
  return kindsOf(unit).some((kind) => parseQuantity(text, kind).ok);
}

/** What is measured with, and how far each is to be believed. */
export function Instruments() {
  const owned = [...book.value.instruments.values()];
  return (
    <section>
      <h2>Instruments owned</h2>
      {owned.length === 0 ? (
        <p>
          None declared yet. Nothing can be judged without one: a reading is worth what its instrument is.
        </p>
      ) : (
        <ul class="lines">
          {owned.map(({ body }) => (
            <li key={body.instrument}>
              <strong>{body.name}</strong> ±{body.uncertainty.expanded}
              {body.name === body.type ? '' : `, ${body.type}`}
              {body.trust === 'default' ? '; a default, not stated by its owner' : ''}
              {body.leaves
                ? `; ${body.leaves.length} leaves, ${body.leaves[0]} to ${body.leaves.at(-1)}`
                : ''}
              <Checked instrument={body.instrument} />
            </li>
          ))}
        </ul>
      )}
      <NewInstrument />
    </section>
  );
}

/** The last check of an instrument, and the form for the next. */
function Checked({ instrument }: { readonly instrument: string }) {
  const last = book.value.instrumentChecks.filter(({ body }) => body.instrument === instrument).at(-1);
  return (
    <FoldOut
      summary={
        <span class="soft">
          {last
            ? `Checked ${whenWords(last.entry.at).slice(0, 10)}: against ${last.body.against} it read ${last.body.read}, ${last.body.good ? 'good' : 'not good'}`
            : 'Check it (not done in this job)'}
        </span>
      }
    >
      {() => <InstrumentCheck instrument={instrument} />}
    </FoldOut>
  );
}

const TYPES = Object.keys(DEFAULT_UNCERTAINTIES);
const USUAL_LEAVES = '0.0015 0.002 0.003 0.004 0.005 0.006 0.007 0.008 0.010 0.012 0.015 0.018 0.020 0.025';

function NewInstrument() {
  const [type, setType] = useState('micrometer');
  const [name, setName] = useState('');
  const [U, setU] = useState('');
  const [leaves, setLeaves] = useState(USUAL_LEAVES);
  const [leafUnit, setLeafUnit] = useState('in');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const usual = DEFAULT_UNCERTAINTIES[type];
  const isLeaves = type === 'feeler leaves';
  const declare = async (event: Event): Promise<void> => {
    event.preventDefault();
    const stated = U.trim();
    const expanded = stated === '' ? (usual?.expanded ?? '') : stated;
    const found: Issue[] = [];
    if (!readsAsUncertainty(expanded))
      found.push({
        code: 'instrument/unreadable-uncertainty',
        at: 'U',
        got: expanded,
        wanted: 'a quantity with its unit, or a share such as 3 %',
        message: `"${expanded}" does not read as an uncertainty. Say it with its unit, such as 0.0005 in, or as 3 %.`,
      });
    const owned = leaves
      .split(/[\s,;]+/)
      .filter((one) => one !== '')
      .map((one) => `${one} ${leafUnit}`);
    if (isLeaves)
      for (const leaf of owned) {
        const read = parseQuantity(leaf, 'length');
        if (!read.ok) found.push(...read.issues);
      }
    setIssues(found);
    if (found.length > 0) return;
    const called = name.trim() === '' ? `${type[0]!.toUpperCase()}${type.slice(1)}` : name.trim();
    let instrument = idFrom(called) || 'instrument';
    for (let i = 2; book.value.instruments.has(instrument); i++) instrument = `${idFrom(called)}-${i}`;
    const entries = await write([
      {
        kind: 'instrument-declared',
        body: {
          instrument,
          name: called,
          type,
          uncertainty: { expanded, coverage: 2, common_share: 0.5 },
          trust: stated === '' ? 'default' : 'stated',
          ...(isLeaves && { leaves: owned }),
        },
      },
    ]);
    setIssues(entries.ok ? [] : entries.issues);
    if (entries.ok) {
      setName('');
      setU('');
    }
  };
  return (
    <form class="form two" onSubmit={(event) => void declare(event)}>
      <h3 class="wide">Declare another</h3>
      <label>
        What it is
        <select value={type} onChange={(event) => setType(event.currentTarget.value)}>
          {TYPES.map((one) => (
            <option key={one}>{one}</option>
          ))}
        </select>
      </label>
      <label>
        Called
        <input
          value={name}
          placeholder={type}
          maxLength={200}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <label class="wide">
        Good for ±, at about 95 %
        <input
          value={U}
          placeholder={usual ? `${usual.expanded}, the default` : '0.0005 in'}
          onInput={(event) => setU(event.currentTarget.value)}
        />
        <small>
          {U.trim() === '' && usual
            ? `Left empty it is ±${usual.expanded} and shown as a default everywhere. ${usual.source}.`
            : 'As you have found it to be: repeat a reading, or hold it against a standard.'}
        </small>
      </label>
      {isLeaves ? (
        <>
          <label class="wide">
            Leaves owned
            <textarea rows={2} value={leaves} onInput={(event) => setLeaves(event.currentTarget.value)} />
          </label>
          <label>
            in
            <select value={leafUnit} onChange={(event) => setLeafUnit(event.currentTarget.value)}>
              <option>in</option>
              <option>thou</option>
              <option>mm</option>
            </select>
          </label>
        </>
      ) : null}
      <div class="wide">
        <IssueLines issues={issues} />
        <button type="submit">Declare it</button>
      </div>
    </form>
  );
}
