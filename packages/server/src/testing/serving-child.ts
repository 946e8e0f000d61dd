import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const BUILT = fileURLToPath(new URL('../../dist/index.js', import.meta.url));
const CHILD = fileURLToPath(new URL('serving-child.mjs', import.meta.url));

export interface ServingChild {
  readonly address: string;
  readonly child: ChildProcess;
  /** Ends it at once, as a power cut would. */
  kill(): Promise<void>;
}

/** A server in a process of its own. */
export function servingChild(directory: string): Promise<ServingChild> {
  if (!existsSync(BUILT))
    throw new Error(
      `${BUILT} is not there: this test kills the built program. Run npm run build, then this again.`,
    );
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [CHILD, directory], { stdio: ['ignore', 'pipe', 'pipe'] });
    const ended = new Promise<void>((done) => child.once('close', () => done()));
    let complaint = '';
    child.stderr.on('data', (chunk) => {
      complaint += chunk;
    });
    child.once('error', reject);
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}: ${complaint}`)));
    child.stdout.once('data', (said) =>
      resolve({
        address: String(said).trim(),
        child,
        kill: () => {
          child.kill('SIGKILL');
          return ended;
        },
      }),
    );
  });
}
