import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Io } from '../io.ts';
import { main } from '../main.ts';

/** What a command said and how it ended. */
export interface Said {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Each desk draws other ids. */
let desks = 0;

/** A command line with a data directory of its own, outside the repository, and a clock that moves by a second. */
export class CommandDesk {
  readonly folder: string;
  readonly data: string;
  private now = Date.UTC(2026, 0, 5, 8, 0, 0);
  private drawn: number;

  /** @param from  a data directory to begin with, copied */
  constructor(from?: string) {
    desks += 1;
    this.drawn = desks;
    this.folder = mkdtempSync(join(tmpdir(), 'fettle-cli-'));
    this.data = join(this.folder, 'data');
    if (from !== undefined) cpSync(from, this.data, { recursive: true });
  }

  file(name: string): string {
    return join(this.folder, name);
  }

  text(name: string): string {
    return readFileSync(this.file(name), 'utf8');
  }

  /** Types a command; the last argument may be what stands on standard input. */
  async fettle(words: readonly string[], stdin = ''): Promise<Said> {
    let out = '';
    let err = '';
    this.now += 1000;
    const io: Io = {
      out: (text) => {
        out += text;
      },
      err: (text) => {
        err += text;
      },
      now: () => this.now,
      // Different each time and the same each run.
      random: (count) =>
        Uint8Array.from({ length: count }, () => (this.drawn = (this.drawn * 73 + 41) & 255)),
      env: { FETTLE_DATA: this.data, FETTLE_WHO: 'Ada' },
      user: () => 'ada',
      stdin: () => stdin,
      watched: false,
    };
    const status = await main(words, io);
    return { status, out, err };
  }

  /** Types a command that must succeed. */
  async good(...words: string[]): Promise<Said> {
    const said = await this.fettle(words);
    if (said.status === 2) throw new Error(`${words.join(' ')}: ${said.err || said.out}`);
    return said;
  }

  /** The answer for programs, whatever the status. */
  async json<T>(...words: string[]): Promise<T> {
    return JSON.parse((await this.fettle([...words, '--json'])).out) as T;
  }

  /** The codes of what was refused. */
  async refused(...words: string[]): Promise<string[]> {
    const said = await this.fettle([...words, '--json']);
    if (said.status !== 2) throw new Error(`${words.join(' ')} was not refused: ${said.out}`);
    return (JSON.parse(said.out) as { issues: { code: string }[] }).issues.map(({ code }) => code);
  }

  clear(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }
}

/** A judgement as `fettle check --json` gives it, as far as tests look. */
export interface JudgementJson {
  readonly characteristic: string;
  readonly place: Record<string, string>;
  readonly status: string;
  readonly mean?: { readonly verdict: string };
  readonly new?: { readonly verdict: string };
  readonly wear?: { readonly verdict: string };
  readonly witnesses: readonly { readonly by: string; readonly with: string }[];
  readonly next?: { readonly move: string; readonly leaf?: string };
  readonly cautions: readonly { readonly code: string }[];
}

export interface CheckJson {
  readonly judgements: readonly JudgementJson[];
  readonly torques: readonly {
    readonly fastener: string;
    readonly advice: { readonly advice: string; readonly proofFraction: number };
    readonly unlogged: readonly Record<string, string>[];
    readonly in_doubt: readonly { readonly because: string }[];
  }[];
  readonly gates: readonly {
    readonly cover: string;
    readonly state: string;
    readonly closed: boolean;
    readonly reasons: readonly { code: string; about: string }[];
    readonly since_then: readonly unknown[];
  }[];
  readonly unknown_entries: readonly { kind: string }[];
  readonly conflicts: readonly { about: string }[];
}

/** `crank.main-journal@3`, as the traps are written. */
export const nameOf = ({ characteristic, place }: JudgementJson): string =>
  Object.keys(place).length > 0 ? `${characteristic}@${Object.values(place).join('/')}` : characteristic;
