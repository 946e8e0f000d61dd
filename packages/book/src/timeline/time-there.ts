import type { Book } from '../fold/book.ts';
import { daysOf } from '../plan/lead-time.ts';

const DAY = 86_400_000;

/** The day a time falls on, counted from the beginning of Unix time; UTC, so that it is the same on every device. */
const dayOf = (millis: number): number => Math.floor(millis / DAY);

/**
 * The time a job is looked at: now, but for a worked example, which stands where whoever wrote it stopped. What is
 * entered into an example afterwards does not move it.
 *
 * @param now  Unix time [ms]
 */
export function timeOf(book: Book, now: number): number {
  if (book.opened?.body.example !== true) return now;
  const writer = book.opened.entry.device;
  const last = book.entries.filter(({ device }) => device === writer).at(-1);
  return Date.parse(last?.at ?? book.opened.entry.at);
}

/** Whole days from one time to another, by the calendar; below zero when it is past. */
export const daysBetween = (from: number, to: number): number => dayOf(to) - dayOf(from);

/** The day of a time, such as `2026-06-10`. */
export const dayWords = (millis: number): string => new Date(millis).toISOString().slice(0, 10);

/** What the job said of its date: a date, or a time counted from when it was said. Undefined where it does not read. */
function dueOf({ opened }: Book): number | undefined {
  const said = opened?.body.due;
  if (said === undefined) return undefined;
  const date = /^\s*(\d{4}-\d{2}-\d{2})\b/.exec(said)?.[1];
  if (date !== undefined && !Number.isNaN(Date.parse(date))) return Date.parse(date);
  const days = daysOf(said);
  return days === undefined ? undefined : Date.parse(opened!.entry.at) + days * DAY;
}

/** Days there are until a date; what is over is below zero. */
export interface TimeThere {
  readonly days?: number;
  /** Days since the date, when it is past. */
  readonly past?: number;
  /** Unix time of the date [ms], where the job names it. */
  readonly date?: number;
}

/**
 * Days there are to plan within: what was asked for, else what is left until the job's date. A date that is past leaves
 * nothing to plan within; it is said, and no repair is left out for it.
 *
 * @param now   Unix time [ms]
 * @param said  days asked for, in place of the job's date
 */
export function timeThere(book: Book, now: number, said?: number): TimeThere {
  if (said !== undefined) return { days: said };
  const date = dueOf(book);
  if (date === undefined) return {};
  const days = daysBetween(timeOf(book, now), date);
  return days < 0 ? { past: -days, date } : { days, date };
}

/** How an order of something on offer stands: here, or so many days on its way. Undefined when none was given. */
export function orderedSince(
  book: Book,
  id: string,
  now: number,
): { readonly here: boolean; readonly gone: number } | undefined {
  const orders = book.orders.filter(({ body }) => body.supply === id);
  if (orders.length === 0) return undefined;
  const open = orders.filter(({ receipts }) => receipts.length === 0);
  const gone = open.map(({ entry }) => Math.max(0, daysBetween(Date.parse(entry.at), timeOf(book, now))));
  return { here: open.length === 0, gone: open.length === 0 ? 0 : Math.min(...gone) };
}

/** What the job says of its date, with the date where that was a time: `seven weeks, before the round (2025-06-10)`. */
export function dueWords(book: Book): string | undefined {
  const said = book.opened?.body.due;
  const date = dueOf(book);
  return said === undefined || date === undefined || said.includes(dayWords(date))
    ? said
    : `${said} (${dayWords(date)})`;
}
