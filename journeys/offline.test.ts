import type { BrowserContext, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { entered, errorsOf, introduced, pressed, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

const at = (id: string): string => `${here.shop.opened.address}#/${LINNET}/at/${id}`;

/** A context whose page has been loaded once and is kept by the service worker. */
async function atTheBench(): Promise<{ context: BrowserContext; page: Page; errors: string[] }> {
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page);
  // Active is not enough: the page comes from the worker only once it has taken over.
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  return { context, page, errors };
}

/** Readings in the ledger on disk, as `fettle log` shows them, of this very value. */
const inLedger = async (id: string, value: string) =>
  (await here.shop.readings()).filter(
    ({ body }) => body.characteristic === id && String(body.value).replace(/\s/g, '') === value,
  );

it('keeps what is entered while the server is away, and brings it to the ledger once when it is back', async () => {
  const { context, page, errors } = await atTheBench();
  await here.shop.stop();
  await page.goto(at('crank.end-float'));
  await page.reload();
  await entered(page, '0.0113');
  const waiting = page.locator('.waiting');
  await waiting.filter({ hasText: '1 entry kept here, sent later' }).waitFor();
  expect(await page.locator('.verdict-word').textContent()).toMatch(/in|out|cannot\s+tell/i);

  // Reloaded from the cache with nothing to answer, it is still there and still waits.
  await page.reload();
  await waiting.filter({ hasText: '1 entry kept here, sent later' }).waitFor();
  await page.getByRole('link', { name: 'Bench' }).first().click();
  await page
    .getByText(/: 0\.0113/)
    .first()
    .waitFor();
  expect(await inLedger('crank.end-float', '0.0113in')).toHaveLength(0);

  await here.shop.start();
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await waiting.filter({ hasText: /^$/ }).waitFor({ state: 'attached' });
  const sent = await inLedger('crank.end-float', '0.0113in');
  expect(sent.map(({ who }) => who)).toEqual(['the journey']);

  // Nothing is sent a second time by a second coming back.
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await page.reload();
  await page
    .getByText(/: 0\.0113/)
    .first()
    .waitFor();
  expect(await inLedger('crank.end-float', '0.0113in')).toHaveLength(1);
  expect(errors).toEqual([]);
  await context.close();
});

it('comes back to the digits when the tab is killed in the middle of a number', async () => {
  const { context, page, errors } = await atTheBench();
  await page.goto(at('crank.runout'));
  await pressed(page, '0.001');
  // As long as a hand needs from the key to the switch.
  await page.waitForTimeout(200);
  await page.close({ runBeforeUnload: false });

  const later = await context.newPage();
  await later.goto(here.shop.opened.address);
  const resume = later.getByRole('link', { name: /Go on typing: 0\.001 at/ });
  await resume.click();
  await expect.poll(() => later.locator('#what-it-says').inputValue()).toBe('0.001');
  await later.getByRole('button', { name: '2', exact: true }).click();
  await later.getByRole('button', { name: 'Enter', exact: true }).click();
  await later.locator('#go-on').waitFor();
  await expect.poll(() => inLedger('crank.runout', '0.0012in').then(({ length }) => length)).toBe(1);
  expect(errors).toEqual([]);
  await context.close();
});

it('shows in one tab what another enters, and what a device that shares nothing with it enters', async () => {
  const { context, page, errors } = await atTheBench();
  const other = await context.newPage();
  await other.goto(at('cam.float'));
  const device = await atTheBench();
  await device.page.goto(at('cam.gear-backlash'));
  await entered(other, '0.0051');
  await entered(device.page, '0.0033');
  const last = page.locator('main.bench');
  for (const value of ['0.0051', '0.0033'])
    await last
      .getByText(new RegExp(`: ${value}`))
      .first()
      .waitFor();
  await other.getByRole('link', { name: 'Bench' }).first().click();
  await other
    .getByText(/: 0\.0033/)
    .first()
    .waitFor();
  // Everybody says the same of the whole job.
  await device.page.getByRole('link', { name: 'Bench' }).first().click();
  const counts = (of: Page): Promise<string | null> => of.locator('.counts').textContent();
  await expect.poll(() => counts(device.page)).toBe(await counts(page));
  expect(await counts(other)).toBe(await counts(page));
  expect(await inLedger('cam.float', '0.0051in')).toHaveLength(1);
  expect(await inLedger('cam.gear-backlash', '0.0033in')).toHaveLength(1);
  expect([...errors, ...device.errors]).toEqual([]);
  await context.close();
  await device.context.close();
});
