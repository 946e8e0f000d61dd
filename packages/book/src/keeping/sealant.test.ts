import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { openJoints } from './joints.ts';

const START = Date.parse('2026-03-01T10:00:00Z');
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const source = { document: 'made', trust: 'assumed' };

const SHEET = {
  fasteners: [{ id: 'rail', name: 'Pan rail', torque: { lower: '10 N.m' }, source }],
  covers: [
    { id: 'pan', name: 'Pan', order: 1, reopen_hours: 5, hides: { fasteners: ['rail'] } },
    { id: 'in', name: 'Engine in', order: 2, reopen_hours: 9, hides: { fasteners: ['rail'] } },
  ],
};
const GATE = { state: 'open' as const, reasons: [], entries: [] };

/** Sealant that must be closed on within 10 min and is cured after 24 h. */
function laid(more: Record<string, unknown> = {}) {
  const one = new Bench(SHEET);
  one.desk.write('joint-state', {
    joint: 'rail',
    state: 'curing',
    close_within: '10 min',
    cures_after: '24 h',
    ...more,
  });
  const move = (kind: 'cover-closed' | 'cover-opened', cover: string, after: number) => {
    one.desk.at = new Date(START + after).toISOString();
    if (kind === 'cover-closed') one.desk.write(kind, { cover, gate: GATE });
    else one.desk.write(kind, { cover, why: 'to look' });
  };
  const fault = (after: number) => openJoints(one.book(), START + after)[0]?.sealant?.fault;
  const holds = (after: number, cover = 'pan') =>
    one.gate(cover, START + after).reasons.filter(({ code }) => code === 'joint/open').length > 0;
  return { one, move, fault, holds };
}

describe('a sealant that must be closed on while it is wet', () => {
  it('that no cover went on over holds from its open time on for ever: cured, it seals nothing', () => {
    const { fault, holds } = laid();
    expect([9 * MINUTE, 11 * MINUTE, 25 * HOUR, 1000 * HOUR].map((after) => holds(after))).toEqual([
      false,
      true,
      true,
      true,
    ]);
    expect(fault(25 * HOUR)).toBe('lain-open');
  });

  it('closed over in time asks nothing more, and is cured when its time is over', () => {
    const { one, move, holds } = laid();
    move('cover-closed', 'pan', 8 * MINUTE);
    expect([1, 20, 30].map((after) => holds(after * HOUR))).toEqual([false, false, false]);
    // Under one of the covers that name it, it is closed for the other too.
    expect(holds(HOUR, 'in')).toBe(false);
    expect(openJoints(one.book(), START + HOUR)).toHaveLength(1);
    expect(openJoints(one.book(), START + 25 * HOUR)).toEqual([]);
    // Without a clock what went on in time is known all the same.
    expect(one.gate('pan').reasons.map(({ code }) => code)).not.toContain('joint/open');
  });

  it('closed over too late, or opened again, is to be done again', () => {
    const late = laid();
    late.move('cover-closed', 'pan', 12 * MINUTE);
    expect(late.fault(30 * HOUR)).toBe('closed-late');
    const opened = laid();
    opened.move('cover-closed', 'pan', 5 * MINUTE);
    opened.move('cover-opened', 'pan', 2 * HOUR);
    opened.move('cover-closed', 'pan', 2 * HOUR + MINUTE);
    expect(opened.fault(30 * HOUR)).toBe('opened-since');
    expect(opened.holds(30 * HOUR)).toBe(true);
    // The outer cover off again leaves the inner one on it.
    const outer = laid();
    outer.move('cover-closed', 'pan', 5 * MINUTE);
    outer.move('cover-closed', 'in', 6 * MINUTE);
    outer.move('cover-opened', 'in', HOUR);
    expect(outer.fault(2 * HOUR)).toBeUndefined();
  });

  it('is not closed by a cover that had gone on before it', () => {
    const one = new Bench(SHEET);
    one.desk.at = new Date(START - 2 * MINUTE).toISOString();
    one.desk.write('cover-closed', { cover: 'pan', gate: GATE });
    one.desk.at = new Date(START).toISOString();
    const body = { joint: 'rail', state: 'curing' as const, close_within: '10 min', cures_after: '24 h' };
    const said = one.desk.write('joint-state', body);
    const faultThen = () => openJoints(one.book(), START + HOUR)[0]?.sealant?.fault;
    expect(faultThen()).toBe('lain-open');
    // Said afterwards, with its start: it lay under the cover that went on then.
    one.desk.strike(said);
    one.desk.write('joint-state', { ...body, started: new Date(START - 6 * MINUTE).toISOString() });
    expect(faultThen()).toBeUndefined();
  });
});

describe('times that cannot be believed', () => {
  it('hold: a start still to come, by more than clocks differ, and times that do not read', () => {
    const later = laid({ started: '2029-03-01T10:00:00Z' });
    expect(later.fault(HOUR)).toBe('starts-later');
    expect(later.holds(HOUR)).toBe(true);
    expect(laid({ started: '2026-03-01T10:03:00Z' }).fault(0)).toBeUndefined();
    for (const said of [{ close_within: 'soon' }, { cures_after: 'a while' }]) {
      const { fault, holds } = laid(said);
      expect(fault(48 * HOUR)).toBe('unreadable');
      expect(holds(48 * HOUR)).toBe(true);
    }
  });
});
