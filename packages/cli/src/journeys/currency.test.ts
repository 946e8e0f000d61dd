import { afterAll, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();
afterAll(() => desk.clear());

const opened = (title: string, ...more: string[]) =>
  desk.good('new', '--outline', 'inline', '--cylinders', '4', '--mains', '3', '--title', title, ...more);
const bought = (job: string, price: string) =>
  ['supply', job, 'seals', 'Seal set', '--covers', 'seals', '--price', price, '--trust', 'quoted'] as const;

it('a job that names its currency says it with every sum, and takes no other', async () => {
  await opened('Named', '--currency', 'gbp', '--cap', '300 GBP');
  await desk.good('want', 'Named', 'seals', 'Seals');
  expect(await desk.refused(...bought('Named', '21 EUR'))).toEqual(['currency/other']);
  expect((await desk.good(...bought('Named', '21 GBP'))).out).toContain('21 GBP');
  const { out } = await desk.good('basket', 'Named');
  const said = out.replace(/\s+/g, ' ');
  expect(said).toContain('Together 21 GBP, 279 GBP under the cap of 300 GBP.');
  expect(said).not.toContain('No currency is named');
});

it('where none is named it is said once, and no currency is taken', async () => {
  await opened('Bare');
  await desk.good('want', 'Bare', 'seals', 'Seals');
  expect(await desk.refused(...bought('Bare', '21 EUR'))).toEqual(['currency/other']);
  await desk.good(...bought('Bare', '21'));
  const said = (await desk.good('basket', 'Bare')).out.replace(/\s+/g, ' ');
  expect(said).toContain('Together 21.');
  expect(said.split('No currency is named')).toHaveLength(2);
});

it('a currency that is none is refused before anything is opened', async () => {
  const started = ['new', '--outline', 'inline', '--cylinders', '4', '--mains', '3', '--title', 'None'];
  expect(await desk.refused(...started, '--currency', 'euro')).toEqual(['currency/unknown']);
  expect(await desk.refused(...started, '--currency', 'EUR', '--cap', '300 USD')).toEqual(['currency/other']);
  expect((await desk.json<{ title: string }[]>('jobs')).some(({ title }) => title === 'None')).toBe(false);
});
