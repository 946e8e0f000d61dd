import { expect, it } from 'vitest';
import { metre, newtonMetre, pascal } from '../units/si.ts';
import { threadFrom } from './designation.ts';
import { holeStripLoad, threadMismatch } from './tapped-hole.ts';
import type { Thread } from './thread.ts';
import { torqueAdvice } from './torque-advice.ts';

const thread = (text: string): Thread => {
  const read = threadFrom(text);
  if (!read.ok) throw new Error(text);
  return read.value;
};

const MPA = 1e6;
const ALLOY = { engagement: metre(0.008), tensile: pascal(200 * MPA) };
const M8 = { torque: newtonMetre(25), designation: 'M8x1.25', grade: '8.8', condition: 'dry' } as const;

it('the same thread under two names is no mismatch, a near one is, and says both sizes', () => {
  expect(threadMismatch(thread('M8'), thread('M8x1.25'))).toBeUndefined();
  const words = threadMismatch(thread('7/16-20'), thread('M11x1.5'));
  // By hand: 7/16 in is 11.1125 mm; 25.4/20 is 1.27 mm.
  expect(words).toMatch(/11\.11 mm with a pitch of 1\.27 mm.*11\.00 mm with a pitch of 1\.50 mm/);
  expect(threadMismatch(thread('M10x1.25'), thread('M10x1.5'))).toBeDefined();
});

it('the load that strips eight millimetres of M8 in alloy, by hand', () => {
  const load = holeStripLoad(thread('M8x1.25'), ALLOY);
  // Limits 6g/6H of M8 x 1.25 (ISO 965-1, from memory): least major 7.760 mm, greatest pitch diameter of the hole 7.348 mm.
  const area = (Math.PI / 1.25) * 8 * 7.76 * (0.625 + 0.57735 * (7.76 - 7.348));
  expect(load.ok && load.value! / (0.5 * 200 * area)).toBeCloseTo(1, 3);
});

it('25 N·m on eight millimetres of M8 in soft alloy strips it although the screw is not past proof', () => {
  const free = torqueAdvice(M8);
  expect(free.ok && free.value.advice).not.toBe('refused');
  const advice = torqueAdvice({ ...M8, hole: ALLOY });
  expect(advice.ok && advice.value.advice).toBe('refused');
  expect(advice.ok && advice.value.reasons[0]).toContain('strips the thread of its hole');
  // Twice the thread in engagement carries it, with room for low friction.
  const longer = torqueAdvice({ ...M8, hole: { ...ALLOY, engagement: metre(0.016) } });
  expect(longer.ok && longer.value.advice).toBe(free.ok && free.value.advice);
});

it('a hole that strips only when the friction is low is cautioned, also where the grade is not known', () => {
  const { grade: _, ...plain } = M8;
  const advice = torqueAdvice({ ...plain, hole: { ...ALLOY, engagement: metre(0.0105) } });
  expect(advice.ok && advice.value.advice).toBe('cautioned');
  expect(advice.ok && advice.value.reasons.at(-1)).toContain('Without the grade');
});

it('a screw of another thread is refused at any torque, and one of unknown form is said to be unknown', () => {
  const wrong = torqueAdvice({ ...M8, designation: '7/16-20', hole: { designation: 'M11x1.5' } });
  expect(wrong.ok && wrong.value.advice).toBe('refused');
  const unknown = torqueAdvice({ ...M8, designation: '5/16-26', hole: { designation: '5/16-22' } });
  expect(unknown.ok ? [] : unknown.issues.map(({ code }) => code)).toEqual([
    'thread/unknown-form',
    'thread/unknown-form',
  ]);
});
