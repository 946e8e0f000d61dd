// From five gauge readings to what is wrong and what to do next, on the demo engine's circuit. Budget: 1 s.
import { readFileSync } from 'node:fs';
import {
  asFound,
  contentHash,
  diagnosed,
  foldedBook,
  newEntryId,
  nextEntry,
  Reckoning,
  readSheet,
} from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { compared } from './side-by-side.mjs';

const SHEET = new URL('../packages/cli/demo/linnet/spec-sheet.json', import.meta.url);
const READINGS = [
  ['38 psi', '600 rpm', '20 degC'],
  ['7.5 psi', '600 rpm', '93 degC'],
  ['14 psi', '1000 rpm', '93 degC'],
  ['31 psi', '2000 rpm', '93 degC'],
  ['40 psi', '3000 rpm', '93 degC'],
];

/** The circuit solved, and its slopes taken, at every severity that is weighed. */
const PLAIN = { solved: 41, slopes: 41, weighed: 41 };

function good(outcome) {
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join('\n'));
  return outcome.value;
}

/** The demo engine with its gauge readings and nothing measured. */
function gauged() {
  const sheet = good(readSheet(JSON.parse(readFileSync(SHEET, 'utf8'))));
  const hash = contentHash(sheet);
  const entries = [];
  const write = (kind, body) => {
    const random = new Uint8Array(10);
    random[9] = entries.length;
    const pen = {
      job: '01920000-0000-7000-8000-00000000beef',
      device: 'bench',
      who: 'Sam',
      at: '2026-03-01T10:00:00Z',
      id: newEntryId(1_700_000_000_000, random),
    };
    entries.push(nextEntry(entries, pen, kind, body));
  };
  write('job-opened', { title: 'A job' });
  write('spec-adopted', { sheet: hash, title: sheet.title });
  write('instrument-declared', {
    instrument: 'gauge',
    name: 'Oil gauge',
    type: 'oil pressure gauge',
    uncertainty: { expanded: '3 psi', coverage: 2, common_share: 0.5 },
    trust: 'stated',
  });
  for (const [pressure, speed, temperature] of READINGS)
    write('gauge-reading', { pressure, speed, temperature, instrument: 'gauge', when: 'as-found' });
  return foldedBook(entries, new Map([[hash, sheet]]), readSheet);
}

export async function diagnosing() {
  const book = gauged();
  const reckoning = new Reckoning(book, asFound(book), CATALOGUE);
  const found = (known, steps) =>
    good(diagnosed(book, reckoning, { known, when: 'as-found', ...(steps && { steps }) }));
  const most = ({ families }) => families[0].family.id;
  if (most(found('before-strip')) !== most(found('before-strip', PLAIN)))
    throw new Error('solving fewer severities changed the answer');
  await compared(
    `Diagnosis from ${READINGS.length} gauge readings, next tests included (budget 1 s)`,
    {
      'plain: the circuit and its slopes solved at every severity that is weighed': () =>
        found('before-strip', PLAIN),
      'as the book does it: nine severities, three of them with slopes, curves between': () =>
        found('before-strip'),
    },
    { rounds: 5 },
  );
}
