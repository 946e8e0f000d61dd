import { readFileSync } from 'node:fs';
import { type Body, contentHash, newEntryId, readSheet, type SpecSheet } from '@fettle/book';
import { failed, type Outcome, ok } from '@fettle/core';
import { type Bench, memoryBench } from './bench.ts';
import type { Context } from './context.ts';
import type { Io } from './io.ts';
import type { Reply } from './reply.ts';
import { wordsOf } from './shell-words.ts';

/** A worked job that comes with the program. Its entries are the same wherever it is entered. */
interface Demo {
  readonly folder: string;
  /** What is typed, file after file. */
  readonly steps: readonly string[];
  readonly job: string;
  readonly device: string;
  readonly who: string;
  /** Unix time of its first entry [ms]; each next one is a minute later. */
  readonly began: number;
  readonly opened: Body<'job-opened'>;
}

export const DEMOS: Readonly<Record<string, Demo>> = {
  linnet: {
    folder: '../demo/linnet/',
    steps: ['steps.txt'],
    job: '01965c1e-4000-7000-8000-00000011172e',
    device: 'demo-linnet',
    who: 'the rebuilder',
    began: Date.UTC(2025, 3, 22, 8, 0, 0),
    opened: {
      example: true,
      title: 'Brackenhall Linnet 172, the library van',
      owner: 'the library service',
      story:
        'A travelling library van. The oil light flickers when hot and idling; years ago somebody changed the relief spring and fitted a thin paper pan gasket.',
      spending_cap: 2400,
      currency: 'EUR',
      due: 'seven weeks, before the summer round',
    },
  },
  returned: {
    folder: '../demo/linnet/',
    steps: ['steps.txt', 'returned.txt'],
    job: '01965c1e-4000-7000-8000-00000022172e',
    device: 'demo-returned',
    who: 'the rebuilder',
    // A day after the first: entries are named by their minute, and both jobs may lie in one directory.
    began: Date.UTC(2025, 3, 23, 8, 0, 0),
    opened: {
      example: true,
      title: 'The library van, parts back from the shop',
      owner: 'the library service',
      story: 'The library van again, with what came back: bores, crank, shells, pistons and gears.',
      spending_cap: 2400,
      currency: 'EUR',
      due: 'seven weeks, before the summer round',
    },
  },
  castelvar: {
    folder: '../demo/castelvar/',
    steps: ['steps.txt'],
    job: '01965c1e-4000-7000-8000-000000039008',
    device: 'demo-castelvar',
    who: 'the rebuilder',
    began: Date.UTC(2025, 4, 3, 8, 0, 0),
    opened: {
      example: true,
      title: 'Castelvar 39-8, alloy V8',
      owner: 'its driver',
      story: 'Taken apart by somebody else, years ago; the boxes of bolts came with it.',
    },
  },
  jackdaw: {
    folder: '../demo/jackdaw/',
    steps: ['steps.txt'],
    job: '01965c1e-4000-7000-8000-000000000500',
    device: 'demo-jackdaw',
    who: 'the rebuilder',
    began: Date.UTC(2025, 5, 7, 8, 0, 0),
    opened: {
      example: true,
      title: 'Pellworth Jackdaw 500, parallel twin',
      owner: 'its rider',
      story: 'A rod seized although the journals measure well, and oil is thrown from the breather.',
    },
  },
};

const MINUTE = 60_000;

const demoFile = (demo: Demo, name: string): string =>
  readFileSync(new URL(`${demo.folder}${name}`, import.meta.url), 'utf8');

/** Ids that are the same every time: the minute of the entry, and its number where chance would be. */
function settledId(demo: Demo, n: number): string {
  const tail = new Uint8Array(10);
  tail[8] = n >> 8;
  tail[9] = n & 255;
  return newEntryId(demo.began + n * MINUTE, tail);
}

/**
 * Types the demo's steps into the command line, line by line, as a person would: same words, same checks.
 *
 * @returns the job with everything entered
 * @throws  when a step is refused: the demo ships with the program, so that is the program's fault
 */
async function demoTyped(
  demo: Demo,
  sheet: SpecSheet,
  type: Context['typed'],
): Promise<ReturnType<typeof memoryBench>> {
  const hash = contentHash(sheet);
  const bench = memoryBench(demo.job, new Map([[hash, sheet]]), {
    who: demo.who,
    device: demo.device,
    id: (n) => settledId(demo, n),
    at: (n) => new Date(demo.began + n * MINUTE).toISOString(),
  });
  await bench.write([
    { kind: 'job-opened', body: demo.opened },
    { kind: 'spec-adopted', body: { sheet: hash, title: sheet.title } },
  ]);
  for (const file of demo.steps)
    for (const [i, line] of demoFile(demo, file).split('\n').entries()) {
      const words = wordsOf(line);
      if (words.length > 0) await typed(type, words, bench, demo, `${file}, line ${i + 1}`);
    }
  return bench;
}

async function typed(
  type: Context['typed'],
  words: readonly string[],
  bench: Bench,
  demo: Demo,
  line: string,
): Promise<void> {
  let said = '';
  const io: Io = {
    out: () => {},
    err: (text) => {
      said += text;
    },
    now: () => demo.began,
    random: () => new Uint8Array(10),
    env: {},
    user: () => demo.who,
    stdin: () => '',
    watched: false,
  };
  const [command, ...rest] = words;
  const status = await type([command!, demo.job, ...rest], io, bench, demo.who);
  if (status === 2) throw new Error(`the demo is refused at ${line}: ${said}`);
}

export async function demoEntered(context: Context, name: string): Promise<Outcome<Reply>> {
  const demo = DEMOS[name];
  if (!demo)
    return failed({
      code: 'demo/unknown',
      at: '--demo',
      got: name,
      wanted: Object.keys(DEMOS).join(', '),
      message: `There is no demo "${name}". Take ${Object.keys(DEMOS).join(' or ')}.`,
    });
  const directory = await context.directory();
  if (!directory.ok) return directory;
  const there = await directory.value.store.entries(demo.job);
  if (!there.ok) return there;
  if (there.value.entries.length > 0)
    return ok({
      json: { job: demo.job, added: 0 },
      text: `${demo.opened.title} is here already (job ${demo.job}); nothing was added.`,
    });
  const sheet = readSheet(JSON.parse(demoFile(demo, 'spec-sheet.json')));
  if (!sheet.ok) return sheet;
  if (context.io.watched) context.io.err('Typing the demo in, one entry at a time …\n');
  const bench = await demoTyped(demo, sheet.value, context.typed);
  const kept = await directory.value.writing(() =>
    directory.value.store.append({
      entries: bench.entries(),
      sheets: [{ hash: contentHash(sheet.value), json: sheet.value }],
    }),
  );
  if (!kept.ok) return kept;
  return ok({
    json: { job: demo.job, added: kept.value.added.length },
    text: `${demo.opened.title}: job ${demo.job}, ${kept.value.added.length} entries. An invented engine, from end to end.`,
  });
}
