import { afterAll, beforeAll, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

// Facts of the trade as the program tells them about its demo engine. Common practice, no source.

const desk = new CommandDesk();
const told = async (...command: string[]): Promise<string> =>
  (await desk.good(...command)).out.replace(/\s+/g, ' ');

beforeAll(async () => {
  await desk.good('new', '--demo', 'linnet');
});
afterAll(() => desk.clear());

it('the groove that gears wear into the cover is added to what a straightedge shows', async () => {
  const why = await told('why', 'linnet', 'pump.end-clearance');
  expect(why).toContain('the groove the gears have worn into the cover comes on top');
  expect(why).toMatch(/formula: .*Pump cover, groove|formula: .*pump\.cover-groove/);
  expect(why).toContain('0.0070 ±0.0006 in');
  expect(await told('why', 'linnet', 'pump.cover-groove')).toContain('Gears and cover wear each other.');
});

it('new gears are measured too, since nobody sees which they are', async () => {
  expect(await told('why', 'linnet', 'pump.gear-width')).toContain(
    'New and worn gears cannot be told apart by eye',
  );
});

it('a ground face goes toward the gears', async () => {
  expect(await told('why', 'linnet', 'pump.cover-groove')).toContain('ground face takes it toward the gears');
});

it('two shims each at the limit per side that fit together prove the total too large', async () => {
  expect(await told('why', 'linnet', 'pump.radial-clearance')).toContain('prove the total too large');
});

it('an end seal that was cut short is out, and nothing mends it', async () => {
  const why = await told('why', 'linnet', 'pan.end-seal-length@rear');
  expect(why).toContain('OUT');
  expect(why).toContain('too short cannot be mended, so it is never cut short');
});

it('a spring that lost load is replaced, never stretched', async () => {
  const why = await told('why', 'linnet', 'valve.spring-seat-load@5');
  expect(why).toContain('replaced, never stretched');
  expect(why).toContain('next: Out: it needs Valve spring (9 EUR); nothing more to measure.');
  const { proposals } = await desk.json<{
    proposals: { part: string; proposed: string }[];
  }>('decide', 'linnet');
  const spring = proposals.find(({ part }) => part === 'valve-spring-old-5');
  expect(spring?.proposed).toBe('replace');
});
