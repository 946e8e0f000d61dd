import { Worker } from 'node:worker_threads';
import { buildBookPdf } from './build-book.ts';
import { morningCardPdf } from './morning-card.ts';
import { slipPdf } from './slip.ts';
import { tagsPdf } from './tags.ts';
import { wallSheetPdf } from './wall-sheet.ts';

const PRINTED = { buildBookPdf, wallSheetPdf, slipPdf, tagsPdf, morningCardPdf };

export type Printing = typeof PRINTED;

interface Asked {
  readonly number: number;
  readonly what: keyof Printing;
  readonly toPrint: Parameters<Printing[keyof Printing]>[0];
}

type Answered = { readonly number: number } & ({ readonly pdf: Uint8Array } | { readonly fault: string });

/** As much of a worker as is needed here. */
export interface Bench {
  postMessage(message: Asked): void;
  on(event: 'message', heard: (answer: Answered) => void): unknown;
  on(event: 'error', heard: (error: Error) => void): unknown;
  on(event: 'exit', heard: (status: number) => void): unknown;
  /** Whether the process waits for it. */
  ref(): void;
  unref(): void;
}

/** One order carried out, where the bench stands. */
export async function answered({ number, what, toPrint }: Asked): Promise<Answered> {
  try {
    return {
      number,
      pdf: await (PRINTED[what] as (order: Asked['toPrint']) => Promise<Uint8Array>)(toPrint),
    };
  } catch (error) {
    return { number, fault: error instanceof Error ? error.message : String(error) };
  }
}

/** A file built by `tsc`: the sources themselves cannot be a worker's. */
const IS_BUILT = import.meta.url.endsWith('.js');

const builtBench = (): Bench => new Worker(new URL('./printing-worker.js', import.meta.url)) as Bench;

/**
 * Printing in a thread of its own, so that a server goes on answering while a book is set. The thread is started by
 * the first order and kept, as what it has set makes the next one quicker; no process waits for it while it is idle.
 *
 * @param begun  a new bench; where the sources are run as they are, there is none and printing is done on the spot
 */
export function printingApart(
  begun: (() => Bench) | undefined = IS_BUILT ? builtBench : undefined,
): Printing {
  if (!begun) return PRINTED;
  const open = new Map<number, { resolve(pdf: Uint8Array): void; reject(error: Error): void }>();
  let bench: Bench | undefined;
  let last = 0;

  const start = (): Bench => {
    const fresh = begun();
    const lost = (error: Error): void => {
      if (bench !== fresh) return;
      bench = undefined;
      for (const { reject } of open.values()) reject(error);
      open.clear();
    };
    fresh.on('message', (answer) => {
      const order = open.get(answer.number);
      open.delete(answer.number);
      if (open.size === 0) fresh.unref();
      if ('pdf' in answer) order?.resolve(answer.pdf);
      else order?.reject(new Error(answer.fault));
    });
    fresh.on('error', lost);
    fresh.on('exit', (status) => lost(new Error(`the printing thread ended with ${status}`)));
    return fresh;
  };

  const printed = (what: keyof Printing) => (toPrint: Asked['toPrint']) =>
    new Promise<Uint8Array>((resolve, reject) => {
      bench ??= start();
      last += 1;
      const number = last;
      open.set(number, { resolve, reject });
      bench.ref();
      try {
        bench.postMessage({ number, what, toPrint });
      } catch (error) {
        open.delete(number);
        if (open.size === 0) bench.unref();
        reject(error);
      }
    });
  return {
    buildBookPdf: printed('buildBookPdf'),
    wallSheetPdf: printed('wallSheetPdf'),
    slipPdf: printed('slipPdf'),
    tagsPdf: printed('tagsPdf'),
    morningCardPdf: printed('morningCardPdf'),
  };
}
