import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { chromiumStarted, errorsOf, introduced, SIZES } from './support/chromium.ts';
import { LINNET, type Workshop, workshop } from './support/workshop.ts';

let shop: Workshop;
let browser: Browser;
beforeAll(async () => {
  [shop, browser] = await Promise.all([workshop(), chromiumStarted()]);
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

async function atTheOil(page: Page): Promise<void> {
  await page.goto(`${shop.opened.address}#/${LINNET}/bench`);
  await introduced(page);
  await page.goto(`${shop.opened.address}#/${LINNET}/oil`);
  await page.locator('[data-tread]').first().waitFor();
}

it('repairs a tread in thought by a tap or a key, and foretells what the command line does', async () => {
  const context = await browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  const thought = page.locator('.thought');
  const named = (name: string) => page.locator(`[data-tread^="${name}"]`);
  await named('Main bearing').click();
  await named('Pump end').focus();
  await page.keyboard.press('Enter');
  await named('Pump radial').focus();
  await page.keyboard.press(' ');
  await expect
    .poll(() => thought.textContent())
    .toMatch(/In thought only: .*Pump end.*Pump radial.*Main bear/);
  // The stair is drawn anew under the focus.
  expect(await page.evaluate(() => (document.activeElement as SVGElement).dataset.tread)).toMatch(/radial/);
  const words = (await thought.textContent())!;
  const [, figure, verdict] = /^([\d.]+ ±[\d.]+ psi)\s*(In|Out|Cannot tell)/.exec(words) ?? [];
  expect(verdict, words).toBe('In');
  const said = await shop.fettle('oil', LINNET, '--lift', 'pump end', 'pump radial', 'main');
  expect(said.replaceAll(/\s+/g, ' ')).toContain(`The gauge would show ${figure}`);
  await page.getByRole('button', { name: 'Put all back' }).click();
  await expect.poll(() => page.locator('[data-tread][aria-pressed=true]').count()).toBe(0);
  expect(errors).toEqual([]);
  await context.close();
});

it('judges a gauge reading at once, and stops the engine where there is no pressure', async () => {
  const context = await browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  const start = page.locator('.first-start');
  await start.getByText(/within 10 s of turning: STOP/).waitFor();
  await start.locator('summary', { hasText: 'Enter what a gauge showed' }).click();
  const entered = async (pressure: string, temperature: string): Promise<void> => {
    await start.getByLabel('Pressure', { exact: true }).fill(pressure);
    await start.getByLabel('Crank speed').fill('600 rpm');
    await start.getByLabel('Oil in the sump').fill(temperature);
    await start.getByLabel('Start-up').check();
    await start.getByRole('button', { name: 'Enter', exact: true }).click();
  };
  const answer = start.locator('form .judged');
  await entered('18 psi', '57 degC');
  await expect.poll(() => answer.textContent()).toContain('As expected');
  expect(await answer.textContent()).not.toContain('STOP');
  await entered('8 psi', '93 degC');
  await expect.poll(() => answer.textContent()).toMatch(/As expected, but under what the sheet wants\. STOP/);
  await entered('0 psi', '20 degC');
  await expect.poll(() => answer.textContent()).toMatch(/No pressure\. STOP the engine/);
  expect(await start.locator('li .judged').count()).toBe(3);
  expect(errors).toEqual([]);
  await context.close();
});

it('weighs the faults when asked, and plans the cheapest repair by itself', async () => {
  const context = await browser.newContext(SIZES.tablet);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  await page.locator('.plan .figure').waitFor();
  const price = /Price ([\d.]+)/.exec((await page.locator('.plan .figure').textContent())!)?.[1];
  expect(JSON.parse(await shop.fettle('plan', LINNET, '--json')).best.price).toBe(Number(price));
  await page.getByLabel('As found, by the gauge alone').check();
  await page.getByRole('button', { name: 'Weigh the faults' }).click();
  await page.locator('.families li').first().waitFor();
  const first = (await page.locator('.families li').first().textContent())!;
  const { families, tests } = JSON.parse(await shop.fettle('diagnose', LINNET, '--before-strip', '--json'));
  expect(first).toContain(families[0].name);
  expect(first).toContain(`${Math.round(100 * families[0].probability)} %`);
  await page.getByRole('heading', { name: `The next test: ${tests[0].name}` }).waitFor();
  expect(errors).toEqual([]);
  await context.close();
});
