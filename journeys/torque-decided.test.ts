import { expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

it('asks about oiled threads, keeps what was applied, and lets it stand by name and reason only', async () => {
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/covers/pistons-in`);
  const cover = page.locator('#cover-pistons-in');
  await cover.locator('summary', { hasText: /held by \d+/ }).waitFor();
  await introduced(page, 'Quill Harrowgate');
  await cover.getByText('Main cap bolts: torque not logged').waitFor();
  const form = cover.locator('details', { hasText: 'Log its torque' });
  await form.locator('summary').click();
  await form.getByLabel(/Wrench set to/).fill('85');
  await form.getByLabel('Threads').selectOption('oiled');
  await form.getByRole('button', { name: 'Log it' }).click();
  await form.getByText(/122 % of proof/).waitFor();
  await form.getByRole('button', { name: /Keep it/ }).click();
  // The question says the same: the reason has come when the old one has gone.
  await cover.getByText('Main cap bolts: torque not logged').waitFor({ state: 'detached' });
  const doubt = cover.locator('li', { hasText: 'tightened with the threads oiled' });
  await doubt.waitFor();
  const decision = doubt.locator('details');
  await decision.locator('summary').click();
  const stands = doubt.getByRole('button', { name: 'It stands' });
  await stands.click();
  await doubt.getByText('Say why it stands').waitFor();
  await doubt.getByLabel(/Why does what was logged stand/).fill('only the heads of the bolts were oiled');
  await stands.click();
  await expect.poll(() => cover.getByText(/Main cap bolts/).count()).toBe(0);
  const kinds = (JSON.parse(await here.shop.fettle('log', LINNET, '--json')) as { kind: string }[]).map(
    ({ kind }) => kind,
  );
  expect(kinds.slice(-2)).toEqual(['torque-pass', 'torque-decided']);
  expect(errors).toEqual([]);
  await context.close();
});
