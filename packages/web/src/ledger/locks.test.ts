import { expect, it } from 'vitest';
import { locksOf } from './locks.ts';

it('gives turns where the browser has no locks, by name, also after one that failed', async () => {
  const locks = locksOf(undefined);
  const said: string[] = [];
  const slow = (word: string, pause: number) => async () => {
    said.push(`${word} begins`);
    await new Promise((resolve) => setTimeout(resolve, pause));
    said.push(`${word} ends`);
    return word;
  };
  const first = locks.request('writing', slow('first', 20));
  const broken = locks.request('writing', () => Promise.reject(new Error('no room')));
  const second = locks.request('writing', slow('second', 0));
  const other = locks.request('sending', slow('other', 0));
  await expect(broken).rejects.toThrow('no room');
  expect(await Promise.all([first, second, other])).toEqual(['first', 'second', 'other']);
  expect(said.indexOf('second begins')).toBeGreaterThan(said.indexOf('first ends'));
  expect(said.indexOf('other ends')).toBeLessThan(said.indexOf('first ends'));
});
