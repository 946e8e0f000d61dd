import type { Book } from '@fettle/book';
import type { Asked } from './oil-asked.ts';
import { OilWork } from './oil-work.ts';

/** To the worker: the book once a change, then what is asked of it, or that an answer is no longer wanted. */
export type ToWorker =
  | { readonly book: Book }
  | { readonly id: number; readonly asked: Asked }
  | { readonly forget: number };
/** From it: one message a step, the last one marked. */
export interface FromWorker {
  readonly id: number;
  readonly answer?: unknown;
  readonly last: boolean;
  /** It came to grief here; the page works it out itself. */
  readonly failed?: boolean;
}

interface Worker {
  addEventListener(type: 'message', heard: (event: { readonly data: ToWorker }) => void): void;
  postMessage(message: FromWorker): void;
}

const worker = globalThis as unknown as Worker;
const wanted = new Set<number>();
let work: OilWork | undefined;

/** Lets what was posted meanwhile be heard. */
const pause = (): Promise<void> =>
  new Promise((resume) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resume();
    };
    port2.postMessage(undefined);
  });

async function answer(id: number, asked: Asked, of: OilWork): Promise<void> {
  await pause();
  const steps = wanted.has(id) ? of.answers(asked) : [];
  for (const step of steps) {
    worker.postMessage({ id, answer: step, last: false });
    await pause();
    if (!wanted.has(id)) return;
  }
  worker.postMessage({ id, last: true });
  wanted.delete(id);
}

worker.addEventListener('message', ({ data }) => {
  if ('book' in data) work = new OilWork(data.book);
  else if ('forget' in data) wanted.delete(data.forget);
  else if (work) {
    wanted.add(data.id);
    const { id } = data;
    answer(id, data.asked, work).catch(() => worker.postMessage({ id, last: true, failed: true }));
  }
});
