import { expect, it } from 'vitest';
import { chromiumStarted, errorsOf, introduced, SIZES } from './support/chromium.ts';
import { LINNET, workshop } from './support/workshop.ts';

it('a tag’s address opens its part, a scanner finds another, and tags are printed from where one is', async () => {
  const [shop, browser] = await Promise.all([workshop(), chromiumStarted()]);
  try {
    const context = await browser.newContext(SIZES.phone);
    const errors = errorsOf(context);
    const page = await context.newPage();
    await page.goto(`${shop.opened.address}#/${LINNET}/decide/orders`);
    await introduced(page);
    await page.goto(`${shop.opened.address}#/${LINNET}/part/crank`);
    await page.getByRole('heading', { level: 1, name: 'CRANKSHAFT' }).waitFor();
    await page.getByText('Main journal, main 3').first().waitFor();
    // A scanner types an address and ends with Enter.
    const field = page.getByLabel(/Find a part by its tag/);
    await field.fill(`http://192.0.2.7:4173/#/${LINNET}/part/camshaft`);
    await field.press('Enter');
    await page.getByRole('heading', { level: 1, name: 'CAMSHAFT' }).waitFor();
    await field.fill('no-such-part');
    await field.press('Enter');
    await page.getByText(/No part of this job goes by/).waitFor();
    expect(await field.inputValue()).toBe('no-such-part');
    const href = await page.getByRole('link', { name: 'Its tag, A4' }).getAttribute('href');
    const tag = await context.request.get(new URL(href!, shop.opened.address).href);
    expect([tag.status(), tag.headers()['content-type']]).toEqual([200, 'application/pdf']);
    // Where a reading would be said, a scanned tag opens its part too.
    await page.goto(`${shop.opened.address}#/${LINNET}/at/crank.rod-journal/1%2Ffront%2F0`);
    await page.getByText('Say it in words').click();
    await page.getByLabel(/As you would say it/).fill('camshaft');
    await page.getByLabel(/As you would say it/).press('Enter');
    await page.getByRole('heading', { level: 1, name: 'CAMSHAFT' }).waitFor();
    // A label no sheet has is not offered to be printed.
    await page.goto(`${shop.opened.address}#/${LINNET}/book`);
    await page.getByRole('link', { name: 'Tags, A4' }).waitFor();
    await page.getByLabel('Begin at label').fill('22');
    await page.getByRole('button', { name: 'Tags, A4: labels 1 to 21' }).waitFor();
    expect(errors).toEqual([]);
  } finally {
    await browser.close();
    await shop.close();
  }
});
