import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();
beforeAll(async () => {
  await desk.good('new', '--demo', 'linnet');
});
afterAll(() => desk.clear());

interface Left {
  readonly quiet: boolean;
  readonly sections: readonly { readonly heading: string; readonly lines: readonly string[] }[];
}

it('says how the engine was left, as text and as a card', async () => {
  expect((await desk.json<Left>('morning', 'linnet')).quiet).toBe(true);
  await desk.good('opening', 'linnet', 'rod-tunnels', '--in', '3', '--by', 'rag', '--name', 'Rod tunnels');
  await desk.good('joint', 'linnet', 'pan-screw', 'finger-tight');
  const { quiet, sections } = await desk.json<Left>('morning', 'linnet');
  expect(quiet).toBe(false);
  expect(sections.map(({ heading, lines }) => [heading, lines.length])).toEqual([
    ['Joints left open', 1],
    ['Openings', 1],
  ]);
  const file = desk.file('card.pdf');
  await desk.good('morning', 'linnet', '--to', file, '--paper', 'letter');
  expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
  expect(await desk.refused('morning', 'linnet', '--to', file, '--paper', 'a5')).toEqual(['paper/unknown']);
});

it('holds a blasted part by name until it was opened, washed, blown and seen through', async () => {
  await desk.good('rework', 'linnet', 'head', 'blasted clean', '--condition', 'used', '--blasted');
  const unclean = async () =>
    (await desk.json<Left>('morning', 'linnet')).sections.find(
      ({ heading }) => heading === 'Not proven clean',
    )?.lines[0];
  expect(await unclean()).toContain('it was blasted');
  await desk.good('clean', 'linnet', 'head', '--opened', '--washed', '--blown', '--seen-through');
  expect(await unclean()).toBeUndefined();
});

it('takes the position in which a partner must stand, and refuses one the sheet has not', async () => {
  expect(await desk.refused('mark', 'linnet', 'crank', '--partner', 'block@nowhere')).toEqual([
    'position/unknown',
  ]);
  await desk.good('mark', 'linnet', 'crank', '--partner', 'block@crank');
  const astray = (await desk.json<Left>('morning', 'linnet')).sections.find(
    ({ heading }) => heading === 'Parts that stand wrong',
  );
  expect(astray?.lines).toHaveLength(1);
  await desk.good('mark', 'linnet', 'crank', '--partner', 'block@block');
  const after = await desk.json<Left>('morning', 'linnet');
  expect(after.sections.some(({ heading }) => heading === 'Parts that stand wrong')).toBe(false);
});
