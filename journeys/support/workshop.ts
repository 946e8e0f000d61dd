import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Entry } from '@fettle/book';

const FETTLE = fileURLToPath(new URL('../../packages/cli/bin/fettle.js', import.meta.url));

/** The demo's job: its id is fixed. */
export const LINNET = '01965c1e-4000-7000-8000-00000011172e';

/** What `fettle serve --json` says when it is open. */
interface Opened {
  readonly address: string;
  readonly addresses: readonly string[];
  readonly code?: string;
}

/** A data directory of its own, with the demo in it, and the server that can be stopped and started on it. */
export interface Workshop {
  readonly directory: string;
  /** As said by the last start. */
  readonly opened: Opened;
  /** Starts it on the port it had before, or on any that is free. */
  start(): Promise<Opened>;
  stop(): Promise<void>;
  /** What a command says on standard output, whatever verdict its status gives. */
  fettle(...args: readonly string[]): Promise<string>;
  readings(): Promise<(Entry & { readonly struck: boolean })[]>;
  close(): Promise<void>;
}

export async function workshop(...options: readonly string[]): Promise<Workshop> {
  const directory = mkdtempSync(join(tmpdir(), 'fettle-journey-'));
  const env = { ...process.env, FETTLE_DATA: directory, FETTLE_NO_BROWSER: '1' };
  let server: ChildProcess | undefined;
  let port = '0';
  let opened: Opened | undefined;
  const fettle = (...args: readonly string[]): Promise<string> =>
    new Promise((resolve, reject) => {
      execFile(process.execPath, [FETTLE, ...args], { env, maxBuffer: 1 << 26 }, (error, out, err) => {
        // Status 1 is a verdict.
        if (error && error.code !== 1) reject(new Error(`fettle ${args.join(' ')}: ${err || error.message}`));
        else resolve(out);
      });
    });
  const shop: Workshop = {
    directory,
    get opened() {
      if (!opened) throw new Error('the server was never started');
      return opened;
    },
    start: async () => {
      server = spawn(process.execPath, [FETTLE, 'serve', '--json', ...options], {
        env: { ...env, PORT: port },
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      opened = JSON.parse(await firstLine(server)) as Opened;
      port = new URL(opened.address).port;
      return opened;
    },
    stop: async () => {
      const running = server;
      server = undefined;
      if (!running || running.exitCode !== null) return;
      const ended = once(running, 'exit');
      running.kill('SIGTERM');
      await ended;
    },
    fettle,
    readings: async () => JSON.parse(await fettle('log', LINNET, '--kind', 'reading', '--json')),
    close: async () => {
      await shop.stop();
      rmSync(directory, { recursive: true, force: true });
    },
  };
  await fettle('new', '--demo', 'linnet');
  await shop.start();
  return shop;
}

function firstLine(program: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    program.stdout!.setEncoding('utf8').on('data', (chunk: string) => {
      said += chunk;
      if (said.includes('\n')) resolve(said.slice(0, said.indexOf('\n')));
    });
    program.once('exit', (status) => reject(new Error(`the server ended with ${status}: ${said}`)));
  });
}
