import { newtonMetre, type TorqueAdvice, type TorqueCase, torqueAdvice, torqueQuestion } from '@fettle/core';
import { expect, it } from 'vitest';

/** Facts of the trade: common practice, no source. Hand arithmetic stands beside each. */
const poundFeet = (value: number) => newtonMetre(value * 1.3558179483314);

function advised(asked: TorqueCase): TorqueAdvice {
  const outcome = torqueAdvice(asked);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

it('thirty lbf·ft on a dry 5/16-18 is past Grade 5 proof', () => {
  // 360/(0.20 × 0.3125) = 5760 lbf; over 0.0524 in² 109.9 ksi; over 85 ksi 1.293.
  const given = advised({ torque: poundFeet(30), designation: '5/16-18', grade: 'SAE 5', condition: 'dry' });
  expect(given.advice).toBe('refused');
  expect(given.proofFraction).toBeCloseTo(1.293, 2);
});

it('the same torque is within about a tenth of Grade 8 proof, and so cautioned', () => {
  const given = advised({ torque: poundFeet(30), designation: '5/16-18', grade: 'SAE 8', condition: 'dry' });
  expect(given.proofFraction).toBeGreaterThan(0.89);
  expect(given.proofFraction).toBeLessThan(1);
  expect(given.advice).toBe('cautioned');
  expect(given.proofFractionAtLowFriction).toBeGreaterThan(1);
});

it('the same torque on 3/8-16 is about three quarters of Grade 5 proof, and may be advised', () => {
  // 360/(0.20 × 0.375) = 4800 lbf; over 0.0775 in² 61.9 ksi; over 85 ksi 0.729.
  const given = advised({ torque: poundFeet(30), designation: '3/8-16', grade: 'SAE 5', condition: 'dry' });
  expect(given.proofFraction).toBeCloseTo(0.729, 2);
  expect(given.advice).toBe('advised');
});

it('without size and grade no verdict is given', () => {
  const bare = advised({ torque: poundFeet(30), condition: 'dry' });
  expect(bare.advice).toBe('no-verdict');
  expect(bare.preload).toBeUndefined();
  const sized = advised({ torque: poundFeet(30), designation: '5/16-18', condition: 'dry' });
  expect(sized.advice).toBe('no-verdict');
  expect(sized.proofFraction).toBeUndefined();
  const graded = advised({ torque: poundFeet(30), grade: 'SAE 5', condition: 'dry' });
  expect(graded.advice).toBe('no-verdict');
});

it('without the condition of the threads no verdict is given either', () => {
  const given = advised({ torque: poundFeet(30), designation: '5/16-18', grade: 'SAE 5' });
  expect(given.advice).toBe('no-verdict');
  expect(given.reasons[0]).toContain('condition');
});

it('eighteen lbf·ft on a 1/4-20 Grade 2 is far past proof: refused, though not yet absurd', () => {
  // 216/(0.20 × 0.25) = 4320 lbf; over 0.0318 in² 135.8 ksi; over 55 ksi 2.47, over the 74 ksi that break it 1.84.
  const asked = { torque: poundFeet(18), designation: '1/4-20', grade: 'SAE 2', condition: 'dry' };
  const given = advised(asked);
  expect(given.advice).toBe('refused');
  expect(given.proofFraction).toBeGreaterThan(2.4);
  expect(torqueQuestion(asked)).toBeUndefined();
});

it('a torque that would pull twice what breaks the bolt is asked about', () => {
  // Twice the break comes at 2 × 74 ksi × 0.0318 in² × 0.20 × 0.25 in = 235 lbf·in = 19.6 lbf·ft.
  const asked = (value: number) =>
    torqueQuestion({ torque: poundFeet(value), designation: '1/4-20', grade: 'SAE 2', nutFactor: 0.2 });
  expect(asked(19.4)).toBeUndefined();
  expect(asked(19.8)?.code).toBe('torque/implausible');
});
