// `npm start`: install, build, and do the main job on the demo engine. Safe to repeat.
import { join } from 'node:path';
import { buildStatus, nodeStatus, ROOT, ready } from './setup.mjs';

// Verdicts answer with 1 (something out, undecided or missing), which is no failure of the program.
// By its id: somebody's own job may have the same word in its title.
const FETTLE = join(ROOT, 'packages/cli/bin/fettle.js');
const LINNET = '01965c1e-4000-7000-8000-00000011172e';
const DEMO = [
  { args: ['new', '--demo', 'linnet'], good: [0] },
  { args: ['check', LINNET], good: [0, 1] },
  { args: ['oil', LINNET], good: [0, 1] },
];

const NEXT = `
The bench page opens next. On the command line, in this folder:
  npx --no-install fettle why linnet pump.end-clearance
  npx --no-install fettle --help
`;

function build() {
  const status = buildStatus();
  if (status !== 0) console.error('The build failed; the lines above say where.');
  return status;
}

/** Runs the demo up to the first call that fails; 0 when all went well. */
function demo() {
  for (const { args, good } of DEMO) {
    console.log(`\n$ fettle ${args.join(' ')}`);
    const status = nodeStatus([FETTLE, ...args]);
    if (good.includes(status)) continue;
    console.error(`fettle ${args[0]} ended with ${status}.`);
    return status;
  }
  console.log(NEXT);
  return 0;
}

// Serving comes last: it goes on until Ctrl-C, or ends at once where a server holds the data already.
process.exitCode = ready() ? build() || demo() || nodeStatus([FETTLE, 'serve', '--or-open']) : 1;
