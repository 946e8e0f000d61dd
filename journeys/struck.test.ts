import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

/** The pressure the page foretells at hot idle, as it says it and as a number [psi]. */
async function foretold(page: Page): Promise<{ words: string; psi: number }> {
  const words = (await page.locator('main.oil .figure').first().textContent())!;
  const [, psi] = /^([\d.]+)(?: ±[\d.]+)? psi at 600 ?rpm, 93 °C/.exec(words) ?? [];
  expect(psi, words).toBeDefined();
  return { words, psi: Number(psi) };
}

it('moves the predicted pressure when a reading of the circuit is struck on the page', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page, 'the striker');
  await page.goto(`${here.shop.opened.address}#/${LINNET}/oil`);
  await page.locator('main.oil .figure').first().waitFor();
  const before = await foretold(page);

  // Without the gears' width the end clearance is unknown, and the pump counts as new: it lifts more.
  await page.locator('main.oil summary', { hasText: 'Show the working' }).click();
  const parameter = page.locator('details.working details', { hasText: /end clearance/i }).first();
  await parameter.locator('summary').click();
  const reading = parameter.locator('li', { hasText: '0.7510' });
  await reading.getByRole('button', { name: 'Strike', exact: true }).click();
  await reading.getByRole('button', { name: 'Strike it' }).click();
  await reading.getByText('Say why').waitFor();
  expect((await foretold(page)).words).toBe(before.words);
  await reading.getByLabel('Why is it struck?').fill('the anvil was not clean');
  await reading.getByRole('button', { name: 'Strike it' }).click();
  await expect.poll(async () => (await foretold(page)).words).not.toBe(before.words);
  const after = await foretold(page);
  expect(after.psi).toBeGreaterThan(before.psi + 1);

  // The ledger has the stroke with its reason, and the command line, which reads only that, foretells the same.
  await expect
    .poll(async () =>
      (await here.shop.readings()).filter(({ struck }) => struck).map(({ body }) => body.characteristic),
    )
    .toEqual(['pump.gear-width']);
  const strokes = JSON.parse(await here.shop.fettle('log', LINNET, '--kind', 'strike', '--json'));
  expect(strokes).toMatchObject([{ who: 'the striker', body: { why: 'the anvil was not clean' } }]);
  const said = await here.shop.fettle('oil', LINNET);
  expect(said).toMatch(new RegExp(`93 °C\\s+600 rpm\\s+${after.psi.toFixed(1)} `));
  expect(errors).toEqual([]);
  await context.close();
});
