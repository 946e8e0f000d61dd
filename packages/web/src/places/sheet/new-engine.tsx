import { contentHash, LAYOUTS, type Layout, newEntryId, positionsOf, type SpecSheet } from '@fettle/book';
import { failed, type Issue, type Outcome, ok } from '@fettle/core';
import { useState } from 'preact/hooks';
import type { Draft } from '../../ledger/writing.ts';
import { written } from '../../ledger/writing.ts';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { WhoLine } from '../../parts/who-line.tsx';
import { go, hashOf } from '../../route.ts';
import { desk, who } from '../../state/desk.ts';
import { settled } from '../../state/job.ts';
import { outlineSheet, readSheet, sheetFromCsv } from '../../state/sheet-reading.ts';

const LAYOUT_NAMES: Readonly<Record<Layout, string>> = { inline: 'Inline', v: 'V', twin: 'Twin' };

/** Every position with the part that came in it, so that readings have something to belong to. */
const partsAsFound = (sheet: SpecSheet): Draft[] =>
  positionsOf(sheet).flatMap(({ id, name }): Draft[] => [
    { kind: 'part-entered', body: { part: id, name, condition: 'used' } },
    { kind: 'part-fitted', body: { position: id, part: id } },
  ]);

/** An outline says no units: lengths are typed and shown in the one chosen. */
const inUnits = (sheet: SpecSheet, unit: string): SpecSheet => ({
  ...sheet,
  characteristics: sheet.characteristics.map((one) =>
    one.kind === 'length' && one.unit === undefined ? { ...one, unit } : one,
  ),
});

/** Opens a job on a sheet: all its first entries are made together, in this browser, with or without a server. */
async function opened(sheet: SpecSheet, title: string, story: string): Promise<Outcome<string>> {
  const { hand } = desk();
  if (who.value.trim() === '')
    return failed({
      code: 'who/missing',
      at: 'who',
      got: 'no name',
      wanted: 'who is writing',
      message: 'Who is writing? Give your name first; it is remembered.',
    });
  const job = newEntryId(Date.now(), hand.random(10));
  const drafts: Draft[] = [
    { kind: 'job-opened', body: { title, ...(story !== '' && { story }) } },
    { kind: 'spec-adopted', body: { sheet: contentHash(sheet), title: sheet.title } },
    ...partsAsFound(sheet),
  ];
  const entries = await written(hand, { job, who: who.value.trim() }, drafts, { json: sheet, sheet });
  return entries.ok ? ok(job) : entries;
}

/** The sheet in a file, by its ending. */
async function sheetIn(file: File): Promise<Outcome<SpecSheet>> {
  const text = await file.text();
  if (/\.(csv|tsv|txt)$/i.test(file.name)) {
    const read = sheetFromCsv(text, { title: file.name.replace(/\.\w+$/, '') });
    return read.ok ? ok(read.value.sheet) : read;
  }
  try {
    return readSheet(JSON.parse(text));
  } catch (error) {
    return failed({
      code: 'file/not-json',
      at: file.name,
      got: error instanceof Error ? error.message : String(error),
      wanted: 'a spec sheet as JSON, or a .csv file',
      message: `${file.name} is no JSON. A spreadsheet is saved as .csv.`,
    });
  }
}

/** An engine of one's own: an outline without numbers, or a sheet somebody has written already. */
export function NewEngine() {
  const [title, setTitle] = useState('');
  const [layout, setLayout] = useState<Layout>('inline');
  const [cylinders, setCylinders] = useState('4');
  const [mains, setMains] = useState('5');
  const [unit, setUnit] = useState<'in' | 'mm'>('mm');
  const [story, setStory] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const begin = async (sheet: Outcome<SpecSheet>): Promise<void> => {
    if (!sheet.ok) return setIssues(sheet.issues.slice(0, 12));
    const job = await opened(sheet.value, title.trim() || sheet.value.title, story.trim());
    if (!job.ok) return setIssues(job.issues);
    void settled();
    go(hashOf(job.value, 'sheet'));
  };
  return (
    <section>
      <h2>An engine of your own</h2>
      <WhoLine />
      <form
        class="form two"
        onSubmit={(event) => {
          event.preventDefault();
          const outline = outlineSheet({
            layout,
            cylinders: Number(cylinders),
            mains: Number(mains),
            title: title.trim(),
          });
          void begin(outline.ok ? ok(inUnits(outline.value, unit)) : outline);
        }}
      >
        <label class="wide">
          What it is called
          <input value={title} placeholder="The blue one" onInput={(e) => setTitle(e.currentTarget.value)} />
        </label>
        <fieldset class="choice wide">
          <legend>Cylinders stand</legend>
          {LAYOUTS.map((one) => (
            <label key={one}>
              <input type="radio" name="layout" checked={layout === one} onChange={() => setLayout(one)} />{' '}
              <span>{LAYOUT_NAMES[one]}</span>
            </label>
          ))}
        </fieldset>
        <label>
          Cylinders
          <input inputMode="numeric" value={cylinders} onInput={(e) => setCylinders(e.currentTarget.value)} />
        </label>
        <label>
          Main bearings
          <input inputMode="numeric" value={mains} onInput={(e) => setMains(e.currentTarget.value)} />
        </label>
        <fieldset class="choice wide">
          <legend>Its manual measures in</legend>
          <label>
            <input type="radio" name="unit" checked={unit === 'mm'} onChange={() => setUnit('mm')} />{' '}
            <span>millimetres</span>
          </label>
          <label>
            <input type="radio" name="unit" checked={unit === 'in'} onChange={() => setUnit('in')} />{' '}
            <span>inches</span>
          </label>
        </fieldset>
        <label class="wide">
          What is known of it before it is opened
          <textarea rows={3} value={story} onInput={(e) => setStory(e.currentTarget.value)} />
        </label>
        <div class="wide">
          <IssueLines issues={issues} />
          <p class="soft">
            It begins with the usual characteristics and no numbers. Every part is entered as it came: used.
            You give limits as you need them, with their page.
          </p>
          <div class="row">
            <button type="submit" class="main-move">
              Begin
            </button>
          </div>
        </div>
      </form>
      <h3>Or from a file</h3>
      <p>
        A list saved from a spreadsheet as .csv (columns name, unit, new lower, new upper, wear upper will do
        for a start), or a spec sheet as .json.
      </p>
      <label class="file">
        <span>Choose the file</span>
        <input
          type="file"
          accept=".csv,.tsv,.json"
          onChange={async (event) => {
            const file = event.currentTarget.files?.[0];
            event.currentTarget.value = '';
            if (file) await begin(await sheetIn(file));
          }}
        />
      </label>
    </section>
  );
}
