import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';

const FETTLE = fileURLToPath(new URL('../packages/cli/bin/fettle.js', import.meta.url));
const data = mkdtempSync(join(tmpdir(), 'fettle-cut-off-'));
const env = { ...process.env, FETTLE_DATA: data };
const inShell = (command: string) =>
  spawnSync('bash', ['-c', `set -o pipefail; ${command}`], { env, encoding: 'utf8', maxBuffer: 1 << 26 });

beforeAll(() => {
  const made = inShell(`"${process.execPath}" "${FETTLE}" new --demo linnet`);
  expect(made.status, made.stderr).toBe(0);
});
afterAll(() => rmSync(data, { recursive: true, force: true }));

it('ends quietly when whoever reads the ledger has had enough', () => {
  const { stdout, stderr } = inShell(`"${process.execPath}" "${FETTLE}" log linnet --json | head -c 20`);
  expect(stdout).toHaveLength(20);
  expect(stderr).toBe('');
});
