import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { userInfo } from 'node:os';

/** What the command line takes from the world around it, so that a test can stand in its place. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Unix time [ms]. */
  readonly now: () => number;
  readonly random: (count: number) => Uint8Array;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly user: () => string;
  readonly stdin: () => string;
  /** Whether a person is watching: progress is only for them. */
  readonly watched: boolean;
}

export const processIo = (): Io => ({
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  now: () => Date.now(),
  random: (count) => new Uint8Array(randomBytes(count)),
  env: process.env,
  user: () => {
    try {
      return userInfo().username;
    } catch {
      // A user without a name in the system's table still writes under one.
      return 'unnamed';
    }
  },
  stdin: () => readFileSync(0, 'utf8'),
  watched: process.stderr.isTTY === true,
});
