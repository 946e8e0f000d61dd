import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { questionOfTorque } from './torque.ts';

const source = { document: 'made', trust: 'printed' };
const bolt = (more: Record<string, unknown>) => {
  const bench = new Bench({
    fasteners: [{ id: 'bolt', name: 'Bolt', torque: { lower: '17 lbf.ft' }, source, ...more }],
  });
  return bench.assessed().torques[0]!;
};
const dry = { thread: '5/16-18 UNC', grade: 'SAE 5', condition: 'dry' };

describe('the torque on the sheet', () => {
  it('is advised, or refused past proof load, by size, grade and condition', () => {
    // F = T/(K d): 17 lbf·ft on a dry 5/16 is 204/(.2 × .3125) = 3264 lbf of 85000 psi × .0524 in² = 4454.
    const advice = bolt(dry).advice;
    expect(advice.ok && advice.value.advice).not.toBe('refused');
    expect(advice.ok && advice.value.proofFraction).toBeCloseTo(3264 / 4454, 1);
    const refused = bolt({ ...dry, torque: { lower: '17 lbf.ft', upper: '30 lbf.ft' } }).advice;
    expect(refused.ok && refused.value.advice).toBe('refused');
  });

  it('has no verdict without size and grade, and is not held against the bolt', () => {
    const advice = bolt({}).advice;
    expect(advice.ok && advice.value.advice).toBe('no-verdict');
  });

  it('goes by the nut factor the sheet states', () => {
    const slippery = bolt({ ...dry, condition: undefined, nut_factor: 0.12 }).advice;
    const usual = bolt(dry).advice;
    expect(slippery.ok && usual.ok && slippery.value.preload! / usual.value.preload!).toBeCloseTo(
      0.2 / 0.12,
      1,
    );
  });
});

describe('a torque to be logged', () => {
  it('is asked about when it would break the bolt twice over, and not before', () => {
    const { fastener } = bolt(dry);
    // Twice stress area times tensile strength: 2 × .0524 in² × 120000 psi × .2 × .3125 in / 12 = 65.5 lbf·ft.
    expect(questionOfTorque(fastener, '64 lbf.ft')).toBeUndefined();
    expect(questionOfTorque(fastener, '68 lbf.ft')).toMatchObject({ code: 'torque/implausible' });
    expect(questionOfTorque(fastener, '64 N.m')).toBeUndefined();
  });

  it('is asked about when the same number in another unit is what the sheet asks for', () => {
    const { fastener } = bolt({ ...dry, torque: { lower: '16 lbf.ft', upper: '18 lbf.ft' } });
    expect(questionOfTorque(fastener, '17 N.m')?.message).toMatch(
      /0\.78 times what the sheet asks.*Was it 17 lbf\.ft/,
    );
    expect(questionOfTorque(fastener, '17 lbf.ft')).toBeUndefined();
    // 23 N·m is 17 lbf·ft: the right torque said in another unit is no slip.
    expect(questionOfTorque(fastener, '23 N.m')).toBeUndefined();
  });
});
