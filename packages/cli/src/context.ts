import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Outcome, ok } from '@fettle/core';
import { type DataDirectory, openDataDirectory } from '@fettle/store';
import envPaths from 'env-paths';
import { type Bench, jobNamed, storedBench } from './bench.ts';
import type { Io } from './io.ts';

/** Options that every command has. */
export interface Common {
  readonly data?: string;
  readonly who?: string;
  readonly json?: boolean;
}

type Typed = (words: readonly string[], io: Io, bench: Bench, who: string) => Promise<number>;

/** What a command works with. Opened once, when first needed. */
export interface Context {
  readonly io: Io;
  readonly common: Common;
  directory(): Promise<Outcome<DataDirectory>>;
  bench(job: string): Promise<Outcome<Bench>>;
  who(): string;
  /** Types a command line, given word by word, at a job that is open already. @returns its exit status */
  readonly typed: Typed;
  close(): Promise<void>;
}

/** Where data goes: as said, as the environment says, or where the platform keeps such things. */
export const dataPath = ({ data }: Common, { env }: Io): string =>
  data ?? env.FETTLE_DATA ?? envPaths('fettle', { suffix: '' }).data;

/**
 * The data directory, through the server that holds it when one does: its pages then hear at once of what is written.
 * The server's code is loaded only where its file says that there may be one.
 */
async function directoryOpened(path: string): Promise<Outcome<DataDirectory>> {
  if (!existsSync(join(path, 'server.json'))) return openDataDirectory(path);
  const { directoryAt } = await import('@fettle/server');
  return directoryAt(path);
}

export function contextOf(io: Io, common: Common, typed: Typed): Context {
  let opened: DataDirectory | undefined;
  const directory = async (): Promise<Outcome<DataDirectory>> => {
    if (opened) return ok(opened);
    const outcome = await directoryOpened(dataPath(common, io));
    if (outcome.ok) opened = outcome.value;
    return outcome;
  };
  const who = (): string => common.who ?? io.env.FETTLE_WHO ?? io.user();
  return {
    io,
    common,
    directory,
    who,
    typed,
    bench: async (name) => {
      const place = await directory();
      if (!place.ok) return place;
      const job = await jobNamed(place.value, name);
      if (!job.ok) return job;
      return storedBench(place.value, job.value, { who: who(), now: io.now, random: io.random });
    },
    close: async () => opened?.close(),
  };
}

/** A context whose one job is already open, for commands that come from a file rather than from a shell. */
export const contextAt = (io: Io, bench: Bench, who: string, typed: Typed): Context => ({
  io,
  common: {},
  directory: () => Promise.reject(new Error('commands of a file know no data directory')),
  who: () => who,
  typed,
  bench: async () => ok(bench),
  close: async () => {},
});
