import type { Book } from '@fettle/book';
import { useEffect, useRef, useState } from 'preact/hooks';
import { book } from '../../state/job.ts';
import type { Answers, Asked } from './oil-asked.ts';
import type { FromWorker, ToWorker } from './oil-worker.ts';

/** An answer as far as it has come. */
interface Working<A> {
  /** The newest step; of what was asked before, until the first of this comes. */
  readonly answer?: A;
  /** Whether more is to come, or what is shown answers an earlier question. */
  readonly busy: boolean;
}

type Heard = (message: Pick<FromWorker, 'answer' | 'last'>) => void;
/** @returns forgets the question */
type Ask = (of: Book, asked: Asked, heard: Heard) => () => void;

/** In the page itself, a step at a time: slower for the hand, and the same answer. */
const here: Ask = (of, asked, heard) => {
  let wanted = true;
  void import('./oil-work.ts').then(({ OilWork }) => {
    const steps = new OilWork(of).answers(asked);
    const step = (): void => {
      if (!wanted) return;
      const { value, done } = steps.next();
      heard(done ? { last: true } : { answer: value, last: false });
      if (!done) setTimeout(step, 0);
    };
    setTimeout(step, 0);
  });
  return () => {
    wanted = false;
  };
};

/** By a worker of the page; where it does not start, what was asked of it is worked out in the page. */
function byWorker(): Ask {
  const waiting = new Map<number, { of: Book; asked: Asked; heard: Heard; forget?: () => void }>();
  let known: Book | undefined;
  let asks = 0;
  let broken = false;
  const worker = new Worker(new URL('./oil-worker.ts', import.meta.url), { type: 'module' });
  const post = (message: ToWorker): void => worker.postMessage(message);
  worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => {
    const asker = waiting.get(data.id);
    if (asker && data.failed) asker.forget = here(asker.of, asker.asked, asker.heard);
    else {
      if (data.last) waiting.delete(data.id);
      asker?.heard(data);
    }
  });
  worker.addEventListener('error', () => {
    broken = true;
    worker.terminate();
    for (const one of waiting.values()) one.forget = here(one.of, one.asked, one.heard);
  });
  return (of, asked, heard) => {
    if (broken) return here(of, asked, heard);
    const id = ++asks;
    const asker: { of: Book; asked: Asked; heard: Heard; forget?: () => void } = { of, asked, heard };
    waiting.set(id, asker);
    if (known !== of) post({ book: of });
    known = of;
    post({ id, asked });
    return () => {
      asker.forget?.();
      if (waiting.delete(id) && !broken) post({ forget: id });
    };
  };
}

let ask: Ask | undefined;

function asking(): Ask {
  try {
    ask ??= typeof Worker === 'undefined' ? here : byWorker();
  } catch {
    ask = here;
  }
  return ask;
}

/**
 * Asks anew whenever the book or the question changes; the answer to the old one stays until the new one comes.
 *
 * @param asked  undefined: nothing is asked, and nothing is shown
 */
export function useWorked<T extends Asked>(asked: T | undefined): Working<Answers[T['about']]> {
  const now = book.value;
  const [found, setFound] = useState<{ key: string; of: Book; answer: Answers[T['about']]; last: boolean }>();
  const key = asked === undefined ? undefined : JSON.stringify(asked);
  const wanted = useRef(asked);
  wanted.current = asked;
  useEffect(() => {
    if (key === undefined) return setFound(undefined);
    return asking()(now, wanted.current!, ({ answer, last }) =>
      setFound((before) =>
        answer === undefined
          ? before && { ...before, last }
          : { key, of: now, answer: answer as Answers[T['about']], last },
      ),
    );
  }, [now, key]);
  const here = found?.key === key && found?.of === now;
  return { ...(found && { answer: found.answer }), busy: key !== undefined && !(here && found?.last) };
}
