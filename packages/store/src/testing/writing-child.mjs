// Writes batches of three notes until it is killed, and says so on standard output once a batch is acknowledged.
// A process of its own, from the built package: what is killed is what a person runs.
import { randomBytes } from 'node:crypto';
import { writeSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { openDataDirectory, written } from '../../dist/index.js';

const [path, job] = process.argv.slice(2);
const random = (count) => new Uint8Array(randomBytes(count));

function given(outcome) {
  if (outcome.ok) return outcome.value;
  writeSync(2, outcome.issues.map(({ message }) => `${message}\n`).join(''));
  process.exit(1);
}

const directory = given(await openDataDirectory(path));
for (let batch = 1; ; batch++) {
  const notes = [1, 2, 3].map((part) => ({
    kind: 'note',
    body: { text: `${process.pid} ${batch} ${part}` },
  }));
  const entries = given(await written(directory, { job, who: 'Sam', now: Date.now(), random }, notes));
  writeSync(1, entries.map(({ id }) => `${id}\n`).join(''));
  // A breath, so that the other writer gets its turn.
  await pause(1);
}
