import { expect, it } from 'vitest';
import { metre, radian } from '../units/si.ts';
import { coneLift, portLift, valveArea } from './valve-area.ts';

const valve = { head: metre(0.04), seatWidth: metre(0.002), seatAngle: radian(Math.PI / 4) };
const throat = { port: metre(0.034), stem: metre(0.008) };

it('the stages of the opening join without a step', () => {
  const just = 1e-9;
  const joins = [coneLift(valve), portLift(valve, throat.port, throat.stem)];
  for (const lift of joins) {
    const below = valveArea(valve, metre(lift - just), throat);
    const above = valveArea(valve, metre(lift + just), throat);
    expect(Math.abs(above / below - 1)).toBeLessThan(1e-4);
  }
});
