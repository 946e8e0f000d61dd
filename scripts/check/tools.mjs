// Compiler, formatter with linter, and finder of unused things, each turned into lines `file:line what is wrong`.
import { execFile } from 'node:child_process';
import { isAbsolute, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const TOOLS = fileURLToPath(new URL('../../node_modules/', import.meta.url));

/** What a command-line tool from node_modules said about the tree at `root`: `{ status, out, err }`. */
function said(root, script, args) {
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [join(TOOLS, script), ...args],
      { cwd: root, maxBuffer: 64 * 1024 * 1024, env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: '0' } },
      (error, out, err) => resolve({ status: error === null ? 0 : (error.code ?? 1), out, err }),
    );
  });
}

/** Faults found, or, when a tool failed without naming one, what it said: silence is never success. */
function faultsOr(name, { status, out, err }, faults) {
  if (status === 0 && faults.length === 0) return [];
  if (faults.length > 0) return faults;
  return [`${name} ended with ${status}: ${`${err}\n${out}`.trim().split('\n').slice(0, 20).join('\n  ')}`];
}

export async function typeFaults(root) {
  const answer = await said(root, 'typescript/bin/tsc', ['-b', '--pretty', 'false']);
  const faults = [...answer.out.matchAll(/^(\S.*?)\((\d+),\d+\): error (.*(?:\n\s+.*)*)/gm)].map(
    ([, file, line, message]) => `${file}:${line} ${message.trim()}`,
  );
  return faultsOr('tsc -b', answer, faults);
}

const styleText = (rule, message) =>
  rule === 'format' || rule.startsWith('assist/')
    ? `is not as the formatter writes it (${rule}): npx biome check --write`
    : `${message} (${rule})`;

export async function styleFaults(root) {
  const answer = await said(root, '@biomejs/biome/bin/biome', [
    'check',
    '--reporter=github',
    '--error-on-warnings',
    '--diagnostic-level=warn',
    '--max-diagnostics=none',
  ]);
  const faults = [
    ...answer.out.matchAll(/^::(?:error|warning) title=([^,]*),file=([^,]*),line=(\d+),.*?::(.*)$/gm),
  ].map(
    ([, rule, file, line, message]) =>
      `${isAbsolute(file) ? relative(root, file) : file}:${line} ${styleText(rule, message.replaceAll('%0A', ' ').trim())}`,
  );
  return faultsOr('biome check', answer, faults);
}

const WORDS = {
  files: 'is used by nothing',
  dependencies: 'depends on a package nothing imports:',
  devDependencies: 'depends on a package nothing uses:',
  unlisted: 'uses a package that is not declared:',
  unresolved: 'imports what cannot be found:',
  binaries: 'runs a command that is not declared:',
  exports: 'exports what nothing imports:',
  types: 'exports a type nothing imports:',
  duplicates: 'exports one thing under two names:',
};

export async function unusedFaults(root) {
  const answer = await said(root, 'knip/bin/knip.js', ['--reporter', 'json', '--no-progress']);
  let report;
  try {
    report = JSON.parse(answer.out.slice(answer.out.indexOf('{')));
  } catch {
    return faultsOr('knip', { ...answer, status: answer.status || 1 }, []);
  }
  const faults = [];
  for (const { file, ...kinds } of report.issues)
    for (const [kind, found] of Object.entries(kinds))
      for (const one of Array.isArray(found) ? found : []) {
        const names = (Array.isArray(one) ? one : [one]).map(({ name }) => name).join(', ');
        const line = (Array.isArray(one) ? one[0] : one)?.line ?? 1;
        faults.push(`${file}:${line} ${WORDS[kind] ?? `${kind}:`}${kind === 'files' ? '' : ` ${names}`}`);
      }
  return faultsOr('knip', answer, faults);
}
