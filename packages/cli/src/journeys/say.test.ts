import { afterAll, beforeAll, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();
beforeAll(() => desk.good('new', '--demo', 'linnet'));
afterAll(() => desk.clear());

const readings = async () =>
  (
    await desk.json<{ body: { value?: string; asked?: unknown }; struck: boolean }[]>(
      'log',
      'linnet',
      '--kind',
      'reading',
    )
  ).length;

it('two numbers said at the bench are read back, entered and judged', async () => {
  const before = await readings();
  const { out } = await desk.good(
    'say',
    'linnet',
    'rod two front 2.1228, 2.1227',
    '--unit',
    'in',
    '--with',
    'micrometer',
  );
  expect(out).toContain('Rod journal, rod 2, front, 0°: 2.1228 in');
  expect(out).toContain('OUT');
  expect(await readings()).toBe(before + 2);
});

it('a correction strikes the last and keeps what was first said', async () => {
  const { out } = await desk.good('say', 'linnet', 'no, 2.1236');
  expect(out).toContain('90°: 2.1236 in, not 2.1227 in.');
  const { out: why } = await desk.good('why', 'linnet', 'crank.rod-journal@2');
  expect(why).toContain('first said 2.1227 in');
  const { out: struck } = await desk.good('say', 'linnet', 'strike that');
  expect(struck).toContain('Struck: Rod journal, rod 2, front, 90°: 2.1236 in.');
});

it('what is not understood changes nothing', async () => {
  const before = await readings();
  for (const words of ['gudgeon two 2.1', 'rod two front', 'rod two front 2.1228'])
    expect((await desk.fettle(['say', 'linnet', words, '--unit', 'in'])).status).toBe(2);
  expect(await readings()).toBe(before);
});

it('an indicator may be said by its whole movement or by half of it; the working shows which', async () => {
  await desk.good('say', 'linnet', 'crank runout half 0.0006', '--unit', 'in', '--with', 'indicator');
  const { out } = await desk.good('why', 'linnet', 'crank.runout');
  expect(out).toContain('0.0012 ±');
  expect(out).toContain('(half)');
});
