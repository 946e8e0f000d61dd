import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { errorsOf, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

/** Tab until the element of this selector has the focus; how it is shown is looked at on every stop. */
async function tabbedTo(page: Page, selector: string): Promise<void> {
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate((wanted) => {
      const active = document.activeElement!;
      const { outlineStyle, outlineWidth } = getComputedStyle(active);
      const { width, height } = active.getBoundingClientRect();
      return {
        isThere: active.matches(wanted),
        isBody: active === document.body,
        what: active.outerHTML.slice(0, 120),
        outline: outlineStyle === 'none' ? 0 : Number.parseFloat(outlineWidth),
        isSeen: width > 0 && height > 0,
      };
    }, selector);
    // Past the last stop the focus is the browser's own.
    if (at.isBody) continue;
    expect(at.outline, `the focus is seen on ${at.what}`).toBeGreaterThanOrEqual(3);
    expect(at.isSeen, `${at.what} has a size`).toBe(true);
    if (at.isThere) return;
  }
  throw new Error(`Sixty times Tab did not reach ${selector}.`);
}

const made = async () => (await here.shop.readings()).filter(({ who }) => who === 'by keys');

it('goes from the bench to a verdict, on to the next place and back by undo without a mouse', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(here.shop.opened.address);
  await page.locator('#next-step').waitFor();
  await tabbedTo(page, '#who-writes');
  await page.keyboard.type('by keys');
  await page.keyboard.press('Enter');
  await page.getByText('Written by by keys').waitFor();

  // The first wanted place has readings that cannot tell; the dial bore gauge was said to decide.
  await tabbedTo(page, '#next-step');
  await page.keyboard.press('Enter');
  await page.locator('#go-on').waitFor();
  const first = page.url();
  const before = await page.locator('.verdict-word').textContent();
  expect(before).toMatch(/cannot tell/i);
  // At the desk keys and verdict stand side by side.
  await tabbedTo(page, '#instrument');
  await page.keyboard.type('Dial bore');
  // Digits go to the field from wherever the focus is, as a wedge sends them.
  await tabbedTo(page, 'button[type=submit]');
  await page.keyboard.type('3.5070');
  expect(await page.locator('#what-it-says').inputValue()).toBe('3.5070');
  await page.keyboard.press('Enter');
  await page.locator('#go-on:focus').waitFor();
  await expect.poll(async () => (await made()).map(({ body }) => body.instrument)).toEqual(['dial-bore']);
  expect((await made())[0]!.body).toMatchObject({ characteristic: 'bore.diameter', value: '3.5070 in' });

  await page.keyboard.press('Enter');
  await expect.poll(() => page.url()).not.toBe(first);
  await page.locator('#go-on, #what-it-says').first().waitFor();

  // A pedal's key takes back what this tab entered, also from the next place.
  await page.keyboard.press('F8');
  await expect.poll(async () => (await made()).map(({ struck }) => struck)).toEqual([true]);
  await page.goto(first);
  await expect.poll(() => page.locator('.verdict-word').textContent()).toBe(before);
  expect(errors).toEqual([]);
  await context.close();
});

it('marks a leaf, and is walked place by place, by arrows and Enter', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/at/pump.radial-clearance`);
  // Two sets of leaves are owned, so the page asks with which.
  await page.locator('#instrument').waitFor();
  await tabbedTo(page, '#instrument');
  await page.keyboard.type('Feeler leaves ±');
  await page.locator('[data-leaf]').first().waitFor();
  await tabbedTo(page, '[data-leaf]');
  await page.keyboard.press('Enter');
  await page
    .locator('.leaf-words')
    .filter({ hasText: /thou goes/ })
    .waitFor();
  await page.keyboard.press('Enter');
  await page
    .locator('.leaf-words')
    .filter({ hasText: /thou does not/ })
    .waitFor();
  const place = () => page.locator('.asked-name').textContent();
  const before = await place();
  await page.locator('.leaf-words').evaluate(() => (document.activeElement as HTMLElement).blur());
  await page.keyboard.press('ArrowRight');
  await expect.poll(place).not.toBe(before);
  await page.keyboard.press('ArrowLeft');
  await expect.poll(place).toBe(before);
  expect(page.url()).toContain('pump.radial-clearance');
  expect(errors).toEqual([]);
  await context.close();
});
