import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

const inThou = (leaf: string): number => {
  const [, size, unit] = /^([\d.]+)\s*(in|thou)$/.exec(leaf)!;
  return Number(size) * (unit === 'in' ? 1000 : 1);
};

/** From the bench, where one says who writes, to a place that waits for a reading. */
async function atPlace(page: Page, id: string, who: string): Promise<void> {
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page, who);
  await page.goto(`${here.shop.opened.address}#/${LINNET}/at/${id}`);
  // A place that says something already shows that first.
  await page.locator('#go-on, .say').first().waitFor();
  const again = page.getByRole('button', { name: 'Again' });
  if (await again.isVisible()) await again.click();
}

/** Tries the leaves the ladder asks for at a gap [thou], until it asks for none. @returns them as they were tried */
async function leavesTried(page: Page, gap: number, most: number): Promise<string[]> {
  const tried: string[] = [];
  const next = page.locator('[data-leaf][data-next=true]');
  for (;;) {
    const leaf = (await next.count()) > 0 ? await next.getAttribute('data-leaf') : null;
    if (leaf === null) return tried;
    expect(tried, 'no leaf is asked for twice').not.toContain(leaf);
    tried.push(leaf);
    expect(tried.length, `tries: ${tried}`).toBeLessThanOrEqual(most);
    const rung = page.locator(`[data-leaf="${leaf}"]`);
    await rung.tap();
    await page.locator(`[data-leaf="${leaf}"][data-state=goes]`).waitFor();
    if (inThou(leaf) <= gap) continue;
    await rung.tap();
    await page.locator(`[data-leaf="${leaf}"][data-state=not]`).waitFor();
  }
}

const withLeaves = (page: Page) =>
  page.locator('#instrument').selectOption({ label: 'Feeler leaves ±0.0005 in' });
const entering = (page: Page) => page.getByRole('button', { name: 'Enter', exact: true }).click();
const verdictOf = (page: Page) => page.locator('.verdict-word').textContent();

/** What this writer read, once it has reached the ledger. */
async function readBy(writer: string) {
  const his = async () =>
    (await here.shop.readings()).filter(({ who }) => who === writer).map(({ body }) => body);
  await expect.poll(async () => (await his()).length).toBe(1);
  return (await his())[0];
}

it('narrows the pump’s radial clearance leaf by leaf, per side, beside what its diameters say', async () => {
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atPlace(page, 'pump.radial-clearance', 'at the pump');
  await withLeaves(page);
  const words = page.locator('.leaf-words');
  await words.filter({ hasText: 'Tap a leaf: it goes.' }).waitFor();

  // Half the diameters' difference is (1.2590 − 1.2490)/2 = 5.0 thou; a gap of 4.8 agrees with it. Owned are leaves of
  // 4 and 5 thou with none between, and the worn limit of 4.5 lies between them: the leaves alone decide nothing.
  await page.locator('[data-leaf][data-next=true]').waitFor();
  const tried = await leavesTried(page, 4.8, 5);
  expect(tried).toEqual(expect.arrayContaining(['4thou', '5thou']));
  await words.filter({ hasText: '4thou goes, 5thou does not. No single leaf would decide' }).waitFor();

  // Two rungs put together make one of 4.5, the limit itself: in a gap of 4.8 it goes, and that decides.
  await page.getByRole('button', { name: 'Lay 1.5 + 3 thou together' }).tap();
  const stack = page.locator('[data-leaf="1.5 + 3 thou"]');
  await stack.waitFor();
  await stack.tap();
  await words.filter({ hasText: '1.5 + 3 thou goes, 5thou does not. That decides it: out.' }).waitFor();

  // Per side or over all is a factor of two: nothing is entered before it is said.
  await entering(page);
  await page.locator('.by-leaves .issue').first().waitFor();
  expect(await page.locator('[data-state=goes]').count()).toBeGreaterThan(0);
  await page.getByRole('radio', { name: /per-side/ }).check();
  await entering(page);
  await page.locator('#go-on').waitFor();
  expect(await verdictOf(page)).toBe('Out');
  await page.locator('.told').getByText('0.0045 to 0.0050 in').first().waitFor();
  const body = await readBy('at the pump');
  // The sheet states it per side, so a reading that says no other way is one per side.
  expect(body).not.toHaveProperty('measurand');
  expect(body).toMatchObject({
    characteristic: 'pump.radial-clearance',
    instrument: 'leaves',
    goes: '4.5 thou',
    goes_stack: ['1.5 thou', '3 thou'],
    stops: '5thou',
  });
  expect(errors).toEqual([]);
  await context.close();
});

it('lays leaves of one’s own choosing together, and a tab killed then comes back to the stack', async () => {
  const context = await here.browser.newContext(SIZES.tablet);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atPlace(page, 'rod.side-clearance/3', 'with two leaves');
  await withLeaves(page);
  await page.getByRole('button', { name: 'Lay leaves together' }).click();
  for (const leaf of ['10thou', '12thou']) await page.locator(`[data-leaf="${leaf}"]`).tap();
  await page.getByRole('button', { name: 'Together: 10 + 12 thou' }).click();
  const stack = page.locator('[data-leaf="10 + 12 thou"]');
  await stack.tap();
  await page
    .locator('.leaf-words')
    .filter({ hasText: '10 + 12 thou goes, none stops yet. That decides it: out.' })
    .waitFor();
  await page.reload();
  await stack.waitFor();
  expect(await stack.getAttribute('data-state')).toBe('goes');
  await entering(page);
  await page.locator('#go-on').waitFor();
  expect(await readBy('with two leaves')).toMatchObject({
    goes: '22 thou',
    goes_stack: ['10 thou', '12 thou'],
  });
  expect(errors).toEqual([]);
  await context.close();
});

it('stops asking for leaves as soon as those tried decide', async () => {
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atPlace(page, 'rod.side-clearance/1', 'at the rods');
  await withLeaves(page);
  await page.locator('[data-leaf][data-next=true]').waitFor();
  // A worn rod may have 6 to 16 thou, and leaves of both are owned: the two of them prove a gap of 9.5.
  const tried = await leavesTried(page, 9.5, 5);
  expect(tried.map(inThou).sort((a, b) => a - b)).toEqual([6, 16]);
  await page.locator('.leaf-words').filter({ hasText: 'That decides it: in. Enter it.' }).waitFor();
  await entering(page);
  await page.locator('#go-on').waitFor();
  expect(await verdictOf(page)).toBe('In');
  expect(await readBy('at the rods')).toMatchObject({
    characteristic: 'rod.side-clearance',
    place: { rod: '1' },
    goes: '6thou',
    stops: '16thou',
  });
  expect(errors).toEqual([]);
  await context.close();
});

it('keeps leaves that contradict each other from being entered, and keeps what was tapped', async () => {
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atPlace(page, 'rod.side-clearance/2', 'in haste');
  await withLeaves(page);
  await page.getByRole('button', { name: /^All \d+ leaves/ }).click();
  const leaves = await page
    .locator('[data-leaf]')
    .evaluateAll((all) => all.map((one) => one.getAttribute('data-leaf')!));
  const byThickness = leaves.sort((a, b) => inThou(a) - inThou(b));
  const thin = page.locator(`[data-leaf="${byThickness[3]!}"]`);
  const thick = page.locator(`[data-leaf="${byThickness[6]!}"]`);
  await thick.tap();
  await thin.tap();
  await thin.tap();
  await page.locator('.leaf-words').filter({ hasText: 'contradict each other' }).waitFor();
  await entering(page);
  await page.locator('.issue').first().waitFor();
  expect(await thick.getAttribute('data-state')).toBe('goes');
  expect(await thin.getAttribute('data-state')).toBe('not');
  expect((await here.shop.readings()).filter(({ who }) => who === 'in haste')).toEqual([]);
  expect(errors).toEqual([]);
  await context.close();
});
