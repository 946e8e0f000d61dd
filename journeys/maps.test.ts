import { expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

it('asks on a phone of what a map is wanted, and remembers it', async () => {
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page);
  await page.goto(`${here.shop.opened.address}#/${LINNET}/maps`);
  const folds = page.locator('.map-folds summary');
  await page.getByText('Of what?').waitFor();
  expect(await folds.count()).toBe(0);
  await page.getByRole('button', { name: /^Springs/ }).click();
  await folds.first().waitFor();
  const springs = await folds.allTextContents();
  expect(springs.join()).toMatch(/spring/i);
  expect(springs.join()).not.toMatch(/journal|lobe/i);
  await page.reload();
  await folds.first().waitFor();
  expect(await folds.allTextContents()).toEqual(springs);
  await page.getByRole('button', { name: 'Other maps' }).click();
  await page.getByRole('button', { name: /^Journals/ }).click();
  await page.getByText('Main journal').first().waitFor();
  expect(errors).toEqual([]);
  await context.close();
});

it('shows all of them at once where there is room', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/maps`);
  await page.locator('.map-folds summary').first().waitFor();
  expect(await page.locator('.map-folds summary').count()).toBeGreaterThan(8);
  expect(await page.getByText('Of what?').count()).toBe(0);
  await context.close();
});
