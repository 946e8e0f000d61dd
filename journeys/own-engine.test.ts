import type { Body, Kind } from '@fettle/book';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { entered, errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';

const here = served();

/** An engine of one's own, from the first page to its sheet. @returns the job's id, as the address has it */
async function begun(page: Page): Promise<string> {
  // The one job there is opens by itself; the way to another engine is among the files.
  await page.goto(here.shop.opened.address);
  await page.getByRole('link', { name: 'Sheet' }).first().click();
  await page.getByRole('link', { name: 'Units, files' }).click();
  await page.locator('a[href="#/"]').click();
  await page.getByRole('heading', { name: 'Which engine?' }).waitFor();
  await introduced(page, 'the owner');
  await page.getByLabel('What it is called').fill('The blue one');
  await page.getByLabel('Inline').check();
  await page.getByLabel('Cylinders', { exact: true }).fill('4');
  await page.getByLabel('Main bearings').fill('3');
  await page.getByLabel('millimetres').check();
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.getByRole('heading', { name: 'Limits, with their page and trust' }).waitFor();
  return /#\/([0-9a-f-]{36})\/sheet/.exec(page.url())![1]!;
}

it('brings an engine of one’s own from an outline to its first verdict, by the page alone', async () => {
  const context = await here.browser.newContext(SIZES.tablet);
  const errors = errorsOf(context);
  const page = await context.newPage();
  const job = await begun(page);

  // One limit, with the page it stands on and how far it is trusted.
  await page.locator('summary', { hasText: /^Crank, rods/ }).click();
  const line = page
    .locator('li', { has: page.locator('summary', { hasText: /^Crankshaft end float/ }) })
    .last();
  await line.locator('summary').click();
  await line.getByLabel('New, at least, mm').fill('0.10');
  await line.getByLabel('New, at most, mm').fill('0.25');
  await line.getByLabel('Document').fill('shop manual');
  await line.getByLabel('Page').fill('41');
  await line.getByLabel('How far it is trusted').selectOption({ label: 'remembered' });
  await line.getByRole('button', { name: 'Keep these limits' }).click();
  await line.getByText('Kept, with its source.').waitFor();

  await page.getByRole('link', { name: 'Instruments' }).click();
  await page.getByLabel('What it is').selectOption('dial indicator');
  await page.getByLabel(/Or state its ± yourself/).fill('0.01 mm');
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByText('±0.01 mm').waitFor();

  await page.goto(`${here.shop.opened.address}#/${job}/at/crank.end-float`);
  expect(await page.locator('.verdict-word').textContent()).toBe('Not read');
  await entered(page, '0.18');
  // 0.18 lies 0.07 and 0.08 from its limits: seven times what the indicator may be off.
  expect(await page.locator('.verdict-word').textContent()).toBe('In');
  await entered(page, '0.28');
  // A second reading a tenth away, where the indicator is good for a hundredth: neither is believed.
  expect(await page.locator('.verdict-word').textContent()).toBe('Cannot tell');
  await page.getByText(/The witnesses disagree\. Clean up/).waitFor();

  await expect
    .poll(async () => (await logged(job, 'reading')).map(({ who, body }) => [who, body.value]))
    .toEqual([
      ['the owner', '0.18 mm'],
      ['the owner', '0.28 mm'],
    ]);
  const [amended] = await logged(job, 'characteristic-amended');
  expect(amended!.body).toMatchObject({
    characteristic: 'crank.end-float',
    change: {
      limits: {
        new: {
          lower: '0.10 mm',
          upper: '0.25 mm',
          source: { document: 'shop manual', page: '41', trust: 'remembered' },
        },
      },
    },
  });
  expect(errors).toEqual([]);
  await context.close();
});

const logged = async <K extends Kind>(
  job: string,
  kind: K,
): Promise<{ readonly who: string; readonly body: Body<K> }[]> =>
  JSON.parse(await here.shop.fettle('log', job, '--kind', kind, '--json'));
