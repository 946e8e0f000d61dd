// Serves a data directory until it is killed, and says on standard output where. A process of its own, from the built
// package: what is killed is what a person runs.
import { writeSync } from 'node:fs';
import { serve } from '../../dist/index.js';

const serving = await serve({ directory: process.argv[2], port: Number(process.argv[3] ?? 0) });
if (!serving.ok) {
  writeSync(2, serving.issues.map(({ code, message }) => `${code} ${message}\n`).join(''));
  process.exit(1);
}
writeSync(1, `${serving.value.address}\n`);
