import { contentHash, type SpecSheet } from '@fettle/book';
import { failed, type Issue, type Outcome, ok } from '@fettle/core';
import { useState } from 'preact/hooks';
import { Choice } from '../../parts/choice.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { ThemeChoice } from '../../parts/top-bar.tsx';
import { adopt, book } from '../../state/job.ts';
import {
  csvFromSheet,
  leftOutOfCsv,
  readSheet,
  sheetFromCsv,
  sheetWithList,
} from '../../state/sheet-reading.ts';
import { LENGTH_UNITS, type LengthUnit, lengthUnit, setLengthUnit } from '../../state/units.ts';

const UNIT_WORDS: Readonly<Record<LengthUnit, string>> = {
  sheet: 'as the sheet prints it',
  mm: 'mm',
  in: 'in',
  thou: 'thou (0.001 in)',
};

/** Units to type and read in, light or dark, and the sheet as a file. */
export function UnitsAndFiles() {
  const now = lengthUnit();
  return (
    <section>
      <h2>Units of length, for this engine in this browser</h2>
      <Choice
        legend="Type and show lengths in"
        name="unit"
        options={LENGTH_UNITS.map((unit) => ({ value: unit, word: UNIT_WORDS[unit] }))}
        value={now}
        choose={setLengthUnit}
      />
      <p class="soft">What has been entered keeps the unit it was said in.</p>
      <h2>Light or dark</h2>
      <ThemeChoice />
      <h2>The sheet as a file</h2>
      <Files />
      <p>
        <a class="button" href="#/">
          Another engine
        </a>
      </p>
    </section>
  );
}

/** Hands a text over as a file. */
function saved(name: string, text: string, media: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: media }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** A whole sheet takes the place of the one that is here; a plain list is written into it. */
async function sheetIn(file: File, sheet: SpecSheet): Promise<Outcome<SpecSheet>> {
  const text = await file.text();
  if (/\.(csv|tsv|txt)$/i.test(file.name)) {
    const list = sheetFromCsv(text, { title: sheet.title });
    const read = list.ok ? sheetWithList(sheet, list.value) : list;
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

function Files() {
  const { sheet } = book.value;
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [done, setDone] = useState('');
  if (!sheet) return <p>The spec sheet is not here yet.</p>;
  const left = leftOutOfCsv(sheet);
  const name = sheet.title.toLowerCase().replace(/[^a-z0-9]+/g, '-');
  const read = async (file: File): Promise<void> => {
    const outcome = await sheetIn(file, sheet);
    if (!outcome.ok) return setIssues(outcome.issues.slice(0, 12));
    const entries = await adopt(outcome.value, contentHash(outcome.value));
    setIssues(entries.ok ? [] : entries.issues);
    setDone(
      entries.ok
        ? `${outcome.value.title} adopted, ${outcome.value.characteristics.length} characteristics.`
        : '',
    );
  };
  return (
    <>
      <div class="row">
        <button type="button" onClick={() => saved(`${name}.csv`, csvFromSheet(sheet), 'text/csv')}>
          Save as .csv
        </button>
        <button
          type="button"
          onClick={() => saved(`${name}.json`, `${JSON.stringify(sheet, null, 2)}\n`, 'application/json')}
        >
          Save as .json
        </button>
      </div>
      {left.length > 0 ? (
        <p class="soft">
          A plain list has no columns for: {left.join(', ')}. They stay when it is taken back.
        </p>
      ) : null}
      <label>
        Adopt the sheet in a file from now on
        <input
          type="file"
          accept=".csv,.tsv,.json"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            event.currentTarget.value = '';
            if (file) void read(file);
          }}
        />
      </label>
      <IssueLines issues={issues} />
      <p role="status">{done}</p>
    </>
  );
}
