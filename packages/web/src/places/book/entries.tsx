import { noticesOf, TAG_SIZES, type TagSize, tagGrid } from '@fettle/book';
import { useState } from 'preact/hooks';
import { StrikeEntry } from '../../parts/strike-entry.tsx';
import { deviceZone } from '../../state/clock.ts';
import { book, job } from '../../state/job.ts';
import { entryWords, whenWords } from '../../words/entry.ts';

/** How many entries are shown at first: the last ones are those one looks for. */
const AT_FIRST = 40;

/** Everything entered, the latest first, with its strokes; and what can be printed of it. */
export function Entries() {
  const [all, setAll] = useState(false);
  const now = book.value;
  const latest = [...now.entries].reverse();
  const shown = all ? latest : latest.slice(0, AT_FIRST);
  const said = noticesOf(now);
  return (
    <main>
      <h1>Entries and print</h1>
      <Printed />
      {said.length > 0 ? (
        <>
          <h2>About the ledger</h2>
          {said.map((words) => (
            <p key={words} class="issue">
              {words.replace(/^! /, '')}
            </p>
          ))}
        </>
      ) : null}
      <h2>{now.entries.length} entries, the latest first</h2>
      <ul class="lines">
        {shown.map((entry) => {
          const struck = now.struck.has(entry.id);
          return (
            <li key={entry.id}>
              <span class={struck ? 'struck' : undefined}>{entryWords(now, entry)}</span>{' '}
              <span class="soft">
                {entry.who}, {whenWords(entry.at)}
              </span>
              {struck || entry.kind === 'job-opened' ? null : <StrikeEntry entry={entry.id} />}
            </li>
          );
        })}
      </ul>
      {latest.length > shown.length ? (
        <button type="button" onClick={() => setAll(true)}>
          All {latest.length}
        </button>
      ) : null}
    </main>
  );
}

const PAPERS = [
  {
    file: 'wall-sheet.pdf',
    name: 'Wall sheet',
    says: 'what is still to be measured, with boxes to write in',
  },
  {
    file: 'morning-card.pdf',
    name: 'How it was left',
    says: 'one page that hangs on the engine overnight',
  },
  { file: 'build-book.pdf', name: 'Build book', says: 'everything, for a stranger to believe' },
] as const;

/** What the server prints; it needs the server, and says so. */
function Printed() {
  const base = `./api/jobs/${job.value ?? ''}`;
  const zone = encodeURIComponent(deviceZone());
  return (
    <>
      <ul class="lines">
        {PAPERS.map(({ file, name, says }) => (
          <li key={file}>
            <div class="row">
              <a
                class="button"
                href={`${base}/${file}?paper=a4&zone=${zone}`}
                target="_blank"
                rel="noreferrer"
              >
                {name}, A4
              </a>
              <a
                class="button"
                href={`${base}/${file}?paper=letter&zone=${zone}`}
                target="_blank"
                rel="noreferrer"
              >
                {name}, Letter
              </a>
            </div>
            {says}
          </li>
        ))}
        <li>
          <Tags base={base} />
        </li>
        <li>
          <div class="row">
            <a class="button" href={`${base}/archive`} download>
              The whole job
            </a>
          </div>
          one archive of open formats, to hand over or to keep
        </li>
      </ul>
      <p class="soft">
        Printing and the archive need the server. On a device reached over plain HTTP, a reload of this page
        needs it too; what is entered is kept here either way.
      </p>
    </>
  );
}

/** Tags for all parts: which label, and where on a sheet that was begun. */
function Tags({ base }: { readonly base: string }) {
  const [size, setSize] = useState<TagSize>(TAG_SIZES[1]);
  const [from, setFrom] = useState('1');
  const labelsOn = (paper: 'a4' | 'letter'): number => {
    const { columns, rows } = tagGrid(size, paper);
    return columns * rows;
  };
  const count = book.value.parts.size;
  if (count === 0) return <>Tags for the parts: none is entered yet.</>;
  return (
    <>
      <div class="row">
        {(['a4', 'letter'] as const).map((paper) => {
          const fits = /^[1-9]\d?$/.test(from.trim()) && Number(from) <= labelsOn(paper);
          const words = `Tags, ${paper === 'a4' ? 'A4' : 'Letter'}`;
          return fits ? (
            <a
              key={paper}
              class="button"
              href={`${base}/tags.pdf?paper=${paper}&size=${size}&from=${Number(from)}`}
              target="_blank"
              rel="noreferrer"
            >
              {words}
            </a>
          ) : (
            <button key={paper} type="button" disabled>
              {words}: labels 1 to {labelsOn(paper)}
            </button>
          );
        })}
      </div>
      <div class="form two">
        <label>
          Label, mm
          <select value={size} onChange={(event) => setSize(event.currentTarget.value as TagSize)}>
            {TAG_SIZES.map((one) => (
              <option key={one} value={one}>
                {one.replace('x', ' × ')}
              </option>
            ))}
          </select>
        </label>
        <label>
          Begin at label
          <input value={from} inputMode="numeric" onInput={(event) => setFrom(event.currentTarget.value)} />
        </label>
      </div>
      one for each of the {count} parts, with a square code that finds it again; opened to other devices, the
      code leads them to the part
    </>
  );
}
