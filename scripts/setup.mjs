// What every command needs before it can do its work: a Node that is new enough, and what the lock file lists.
// Only modules of Node itself are imported here, for nothing else may be installed yet.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('..', import.meta.url));

const LEAST_NODE = [20, 19];

export function nodeIsNewEnough(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return major > LEAST_NODE[0] || (major === LEAST_NODE[0] && minor >= LEAST_NODE[1]);
}

/** npm writes its own copy of the lock file last: without it, or with an older one, an install is due. */
function installIsDue() {
  const done = join(ROOT, 'node_modules', '.package-lock.json');
  return !existsSync(done) || statSync(join(ROOT, 'package-lock.json')).mtimeMs > statSync(done).mtimeMs;
}

/** Whether the one native module is built, and for this Node. */
function databaseLoads() {
  try {
    const Database = createRequire(join(ROOT, 'packages/store/package.json'))('better-sqlite3');
    new Database(':memory:').close();
    return true;
  } catch {
    return false;
  }
}

const answers = (command) => spawnSync(command, ['--version'], { stdio: 'ignore' }).status === 0;

function missingTools() {
  if (process.platform === 'win32') return [];
  const missing = ['make', 'python3'].filter((tool) => !answers(tool));
  return ['c++', 'g++', 'clang++'].some(answers) ? missing : ['a C++ compiler', ...missing];
}

function npm(...args) {
  const { npm_execpath: own } = process.env;
  // Said aloud even when the command around it was asked to be silent: a failed install must show why.
  const env = { ...process.env, npm_config_loglevel: 'notice' };
  const options = { cwd: ROOT, env, stdio: ['ignore', 'inherit', 'inherit'] };
  const run =
    own !== undefined && basename(own) === 'npm-cli.js'
      ? spawnSync(process.execPath, [own, ...args], options)
      : spawnSync('npm', args, { ...options, shell: process.platform === 'win32' });
  return run.status === 0;
}

/** What a process answers that a signal ended: no status that a program of ours gives by itself. */
const BROKEN_OFF = 70;

/** Runs a command of this Node in the house, its output shown. @returns its exit status */
export function nodeStatus(args) {
  const run = spawnSync(process.execPath, args, { cwd: ROOT, stdio: ['ignore', 'inherit', 'inherit'] });
  return run.status ?? BROKEN_OFF;
}

/** Builds the command line with all it speaks to, then the page it serves. @returns 0, or the status that stopped it */
export function buildStatus() {
  const steps = [
    [join(ROOT, 'node_modules/typescript/bin/tsc'), '-b', 'packages/cli', 'packages/web'],
    [join(ROOT, 'node_modules/vite/bin/vite.js'), 'build', 'packages/web', '--logLevel', 'warn'],
  ];
  for (const args of steps) {
    const status = nodeStatus(args);
    if (status !== 0) return status;
  }
  return 0;
}

/** Installs what is missing, nothing else; says in one line what stands in the way. */
export function ready() {
  if (!nodeIsNewEnough(process.versions.node)) {
    console.error(`Node ${process.versions.node} is too old: Fettle wants ${LEAST_NODE.join('.')} or newer.`);
    return false;
  }
  const due = installIsDue();
  if (!due && databaseLoads()) return true;
  const missing = missingTools();
  const advice = `The database module may have to be compiled, and this machine lacks ${missing.join(', ')}: apt-get install -y build-essential python3`;
  if (missing.length > 0) console.error(advice);
  console.log(
    due ? 'Installing what is missing (a minute or two) …' : 'Building the database module for this Node …',
  );
  const done = due ? npm('ci', '--include=dev', '--no-audit', '--no-fund') : npm('rebuild', 'better-sqlite3');
  if (done && databaseLoads()) return true;
  console.error(
    missing.length > 0
      ? advice
      : 'The install did not succeed; what npm said stands above. `npm ci` repeats it.',
  );
  return false;
}

/** What the tests run that npm does not bring: the program, how it answers, and the package it comes in. */
const TEST_PROGRAMS = [
  { command: 'pdftotext', asked: '-v', from: 'poppler-utils' },
  { command: 'chromium', asked: '--version', from: 'chromium' },
];

/** Installed where this may install; elsewhere the tests that want them fail and name what to install. */
export function testProgramsWanted() {
  const missing = TEST_PROGRAMS.filter(
    ({ command, asked }) => spawnSync(command, [asked], { stdio: 'ignore' }).error !== undefined,
  ).map(({ from }) => from);
  if (missing.length === 0) return;
  if (process.platform !== 'linux' || process.getuid?.() !== 0) {
    console.error(
      `Some tests will fail for want of ${missing.join(', ')}: apt-get install ${missing.join(' ')}`,
    );
    return;
  }
  console.log(`Installing ${missing.join(' and ')}, which the tests run …`);
  const options = { stdio: ['ignore', 'ignore', 'inherit'] };
  spawnSync('apt-get', ['update', '-q'], options);
  spawnSync('apt-get', ['install', '-y', '-q', ...missing], options);
}
