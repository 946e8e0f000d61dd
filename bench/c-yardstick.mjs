// The plain C program of the reference network, compiled where there is a compiler and asked line by line.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

/**
 * @returns undefined, and one line said, where it cannot be compiled; else `ask`, which gives the numbers of one answer,
 *          and `close`
 */
export function cYardstick() {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-bench-'));
  const program = join(folder, 'network');
  const source = fileURLToPath(new URL('./network-plain.c', import.meta.url));
  try {
    execFileSync('cc', ['-O2', '-march=native', '-o', program, source, '-lm'], { stdio: 'pipe' });
  } catch (error) {
    rmSync(folder, { recursive: true });
    const why = error.code === 'ENOENT' ? 'there is no compiler called cc' : 'cc does not compile it here';
    console.log(`\nThe plain C program is left out: ${why}.`);
    return undefined;
  }
  const child = spawn(program, { stdio: ['pipe', 'pipe', 'inherit'] });
  const waiting = [];
  createInterface({ input: child.stdout }).on('line', (line) =>
    waiting.shift()(line.trim().split(' ').map(Number)),
  );
  return {
    ask: (command) =>
      new Promise((answer) => {
        waiting.push(answer);
        child.stdin.write(`${command}\n`);
      }),
    close: () => {
      child.stdin.end();
      rmSync(folder, { recursive: true });
    },
  };
}
