import { EventEmitter } from 'node:events';
import { expect, it } from 'vitest';
import { answered, type Bench, printingApart } from './apart.ts';
import { begun, folded } from './testing/linnet-job.ts';
import { wallSheetPdf } from './wall-sheet.ts';

const toPrint = {
  book: folded(begun({ title: 'Apart' }).entries.slice(0, 1)),
  paper: 'a4',
  printedAt: '2026-05-01T09:30:00Z',
} as const;

/** A bench that gets and gives copies, as a thread does, and says whether the process would wait for it. */
class Copying extends EventEmitter {
  waitedFor = true;
  readonly orders: unknown[] = [];
  postMessage(order: Parameters<Bench['postMessage']>[0]): void {
    const copy = structuredClone(order);
    this.orders.push(copy);
    void answered(copy).then((answer) => this.emit('message', structuredClone(answer)));
  }
  ref(): void {
    this.waitedFor = true;
  }
  unref(): void {
    this.waitedFor = false;
  }
}

it('gives the same bytes from a thread of its own, on one bench, and lets the process go when idle', async () => {
  const benches: Copying[] = [];
  const printing = printingApart(() => {
    benches.push(new Copying());
    return benches.at(-1)!;
  });
  const own = await wallSheetPdf(toPrint);
  const [one, two] = await Promise.all([printing.wallSheetPdf(toPrint), printing.wallSheetPdf(toPrint)]);
  expect(Buffer.from(one).equals(Buffer.from(own))).toBe(true);
  expect(Buffer.from(two).equals(Buffer.from(own))).toBe(true);
  expect(benches).toHaveLength(1);
  expect(benches[0]?.orders).toHaveLength(2);
  expect(benches[0]?.waitedFor).toBe(false);
});

it('hands a fault back to who asked, and goes on', async () => {
  const printing = printingApart(() => new Copying());
  await expect(printing.wallSheetPdf({ ...toPrint, printedAt: 'noon' })).rejects.toThrow('"noon" is no time');
  expect((await printing.wallSheetPdf(toPrint)).length).toBeGreaterThan(1000);
  // What cannot be handed to a thread is refused as well.
  const unsendable = { ...toPrint, photos: (() => undefined) as never };
  await expect(printing.buildBookPdf(unsendable)).rejects.toThrow('could not be cloned');
});

it('starts another bench when one is lost, and leaves nobody waiting', async () => {
  let started = 0;
  const printing = printingApart(() => {
    started += 1;
    const bench = new Copying();
    if (started === 1) bench.postMessage = () => setImmediate(() => bench.emit('exit', 134));
    return bench;
  });
  await expect(printing.wallSheetPdf(toPrint)).rejects.toThrow('the printing thread ended with 134');
  expect((await printing.wallSheetPdf(toPrint)).length).toBeGreaterThan(1000);
  expect(started).toBe(2);
});

it('prints on the spot where the sources run as they are', () => {
  expect(printingApart().wallSheetPdf).toBe(wallSheetPdf);
});
