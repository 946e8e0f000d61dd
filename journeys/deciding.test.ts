import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

async function section(page: Page, name: string): Promise<void> {
  await page.goto(`${here.shop.opened.address}#/${LINNET}/decide/${name}`);
}

it('takes a proposal by a tap, and the slip asks the shop for it on page, paper and command line', async () => {
  const context = await here.browser.newContext(SIZES.tablet);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page);
  await section(page, 'decisions');
  const waiting = page.getByRole('heading', { name: /^To be decided: \d+$/ });
  const before = Number((await waiting.textContent())!.replace(/\D/g, ''));
  const head = page.locator('.deciding details', { hasText: 'Cylinder head' }).first();
  await head.locator('summary').click();
  // 92 % × (20 h × 18 + 55).
  await head.getByText(/^Reusing Cylinder head costs 38\d: 92 % × \(20 h × 18 \+ 55\)/).waitFor();
  await head.getByRole('button', { name: 'Machine it', exact: true }).click();
  await page.getByRole('heading', { name: `To be decided: ${before - 1}`, exact: true }).waitFor();
  expect(await here.shop.fettle('decide', LINNET, 'head')).toContain('decided: to be machined');
  await section(page, 'slip');
  await page.getByRole('heading', { name: 'Cylinder head', exact: true }).waitFor();
  const pdf = page.getByRole('link', { name: 'Cylinder head, A4' });
  const answer = await context.request.get(new URL((await pdf.getAttribute('href'))!, page.url()).href);
  expect([answer.status(), answer.headers()['content-type']]).toEqual([200, 'application/pdf']);
  expect(await here.shop.fettle('slip', LINNET, 'head')).toContain('CYLINDER HEAD (head)');
  expect(errors).toEqual([]);
  await context.close();
});

it('says the same sum and the same chance on the page as on the command line', async () => {
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page);
  await section(page, 'basket');
  const sum = (await page.locator('.basket .figure').textContent())!;
  expect((await here.shop.fettle('basket', LINNET)).replaceAll(/\s+/g, ' ')).toContain(sum);
  await section(page, 'time-line');
  const chance = (await page.locator('.time-line .figure').textContent())!;
  expect(chance).toMatch(/^The chance of meeting the 7 weeks there are: \d\d %\.$/);
  expect((await here.shop.fettle('timeline', LINNET)).replaceAll(/\s+/g, ' ')).toContain(chance);
  expect(await page.locator('.time-line [data-mark=critical]').count()).toBe(6);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
  expect(errors).toEqual([]);
  await context.close();
});

it('takes what is ordered out of the basket, and what arrives is not measured yet', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page);
  await section(page, 'basket');
  await page.getByRole('button', { name: 'Valve spring is ordered' }).click();
  await expect.poll(() => page.getByRole('button', { name: 'Valve spring is ordered' }).count()).toBe(0);
  await section(page, 'orders');
  await page.getByRole('button', { name: 'Valve spring has arrived' }).click();
  await page.getByText('here, not entered as a part: not measured').waitFor();
  expect(errors).toEqual([]);
  await context.close();
});
