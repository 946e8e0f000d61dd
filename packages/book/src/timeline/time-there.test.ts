import { describe, expect, it } from 'vitest';
import { basketOf } from '../basket/basket.ts';
import { foldedBook } from '../fold/fold.ts';
import type { Body } from '../ledger/bodies.ts';
import { Desk } from '../testing/desk.ts';
import { chanceRests, dateWords, takesWords } from '../words/timeline.ts';
import { orderedSince, timeOf, timeThere } from './time-there.ts';
import { type TimeLine, timeLineOf } from './timeline.ts';

const DAY = 86_400_000;
/** When the job was opened and everything else said. */
const SAID = Date.parse('2026-03-01T10:00:00Z');
const later = (days: number): number => SAID + days * DAY;

function job(more: Partial<Body<'job-opened'>> = {}) {
  const desk = new Desk('bench');
  desk.write('job-opened', { title: 'A job', due: 'seven weeks, before the summer', ...more });
  const book = () => foldedBook(desk.entries, new Map(), () => ({ ok: false as const, issues: [] }));
  const line = (now: number, days?: number): TimeLine =>
    timeLineOf(book(), basketOf(book(), { taken: [], now }), { now, days });
  const task = (now: number, id: string) => line(now).tasks.find((one) => one.id === id)!;
  return { desk, book, line, task };
}

describe('the date of a job', () => {
  it('is counted from when it was said, not from today', () => {
    const { book } = job();
    expect(timeThere(book(), later(0))).toEqual({ days: 49, date: later(49) });
    expect(timeThere(book(), later(30))).toMatchObject({ days: 19 });
    expect(timeThere(book(), later(49))).toMatchObject({ days: 0 });
    expect(timeThere(book(), later(60))).toEqual({ past: 11, date: later(49) });
    expect(timeThere(book(), later(60), 14)).toEqual({ days: 14 });
  });

  it('may be a date, and is none where it does not read', () => {
    expect(timeThere(job({ due: '2026-06-10, the fair' }).book(), SAID)).toMatchObject({ days: 101 });
    expect(timeThere(job({ due: 'before the summer' }).book(), SAID)).toEqual({});
  });

  it('is counted by the calendar: an hour before midnight is a day before the next', () => {
    const { book } = job();
    const late = Date.parse('2026-04-18T23:00:00Z');
    expect(timeThere(book(), late)).toMatchObject({ days: 1 });
    expect(timeThere(book(), late + 2 * 3_600_000)).toMatchObject({ days: 0 });
  });

  it('past has no chance, and is said with by how much', () => {
    const { desk, line } = job();
    desk.write('task-planned', { task: 'wash', name: 'Washing', takes: '2 days', latest: '4 days' });
    expect(line(later(46)).chance.chance).toBeGreaterThan(0);
    const past = line(later(49 + 7 * 76));
    expect(past).toMatchObject({ days: -532, chance: { chance: 0 } });
    expect(dateWords(past)[0]).toMatch(/2026-04-19.*past.*76 weeks/);
  });
});

describe('what is on its way', () => {
  const supplied = () => {
    const made = job();
    made.desk.write('supply-offered', {
      supply: 'shells',
      name: 'Shells',
      covers: [{ need: 'shells', count: 1 }],
      price: 90,
      lead_time: '3 weeks',
      soonest: '10 days',
      latest: '5 weeks',
      trust: 'quoted',
    });
    const order = made.desk.write('order', { item: 'Shells', supply: 'shells' });
    return { ...made, order };
  };

  it('has been so since it was ordered', () => {
    const { task, book } = supplied();
    expect(orderedSince(book(), 'shells', later(12))).toEqual({ here: false, gone: 12 });
    expect(task(later(0), 'shells').times).toMatchObject({ soonest: 10, likely: 21, latest: 35 });
    expect(task(later(12), 'shells')).toMatchObject({
      state: 'ordered',
      gone: 12,
      overdue: false,
      times: { soonest: 0, likely: 9, latest: 23 },
    });
  });

  it('is overdue when more days are gone than it was to take at the latest, and that is said', () => {
    const { task, line } = supplied();
    expect(task(later(40), 'shells')).toMatchObject({ overdue: true, times: { latest: 0 } });
    expect(takesWords(task(later(40), 'shells'))).toBe('overdue');
    expect(chanceRests(line(later(40))).join(' ')).toContain('Overdue');
  });

  it('takes no more time once it is here', () => {
    const { desk, task, order } = supplied();
    desk.write('receipt', { order: order.id });
    expect(task(later(1), 'shells')).toMatchObject({ state: 'over', times: { latest: 0 } });
  });
});

it('a task that was begun is counted from then, and waits for nothing any more', () => {
  const { desk, task } = job();
  desk.write('task-planned', { task: 'wash', name: 'Washing', takes: '2 days' });
  const body = { task: 'build', name: 'Building', takes: '8 days', latest: '14 days', needs: ['wash'] };
  desk.write('task-planned', body);
  expect(task(later(5), 'build')).toMatchObject({ state: 'ahead', times: { likely: 8 }, needs: ['wash'] });
  desk.write('task-planned', { ...body, began: '2026-03-02T08:00:00.000Z' });
  expect(task(later(5), 'build')).toMatchObject({
    state: 'begun',
    gone: 4,
    times: { likely: 4, latest: 10 },
    needs: [],
  });
});

it('a worked example stands at the last line of whoever wrote it, whatever is entered into it afterwards', () => {
  const { desk, book, line } = job({ example: true });
  desk.write('note', { text: 'the last line' });
  expect(timeOf(book(), later(300))).toBe(SAID);
  const guest = desk.beside('guest');
  guest.at = new Date(later(300)).toISOString();
  guest.write('task-planned', { task: 'wash', name: 'Washing', takes: '2 days' });
  desk.sees(guest);
  expect(timeOf(book(), later(300))).toBe(SAID);
  expect(line(later(300))).toMatchObject({ days: 49, example: true });
  expect(chanceRests(line(later(300)))[0]).toContain('2026-03-01, where this worked example stands');
});
