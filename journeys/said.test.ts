import { expect, it } from 'vitest';
import { chromiumStarted, errorsOf, introduced, SIZES } from './support/chromium.ts';
import { LINNET, workshop } from './support/workshop.ts';

it('two rod readings are said, read back and corrected on a phone; a slip of unit is asked about', async () => {
  const [shop, browser] = await Promise.all([workshop(), chromiumStarted()]);
  try {
    const context = await browser.newContext(SIZES.phone);
    const errors = errorsOf(context);
    const page = await context.newPage();
    await page.goto(`${shop.opened.address}#/${LINNET}/decide/orders`);
    await introduced(page);
    await page.goto(`${shop.opened.address}#/${LINNET}/at/crank.rod-journal/1%2Ffront%2F0`);
    const before = (await shop.readings()).length;
    await page.getByText('Say it in words').click();
    const field = page.getByLabel(/As you would say it/);
    const said = async (words: string): Promise<void> => {
      await field.fill(words);
      await field.press('Enter');
    };
    await said('rod two front 2.1228, 2.1227');
    await page.getByText('Rod journal, rod 2, front, 90°: 2.1227 in').waitFor();
    await said('no, 2.1236');
    await page.getByText('Rod journal, rod 2, front, 90°: 2.1236 in, not 2.1227 in.').waitFor();
    // Millimetres said for inches: asked about, and what was said stays in the field.
    await said('rod one front 0 53.93 mm');
    await page.getByText('Rod journal, rod 1, front, 0°: 53.93 mm').waitFor();
    await said('rod one rear 0 53.93 in');
    await page.getByText(/Was it 53\.93 mm/).waitFor();
    expect(await field.inputValue()).toBe('rod one rear 0 53.93 in');
    await expect.poll(async () => (await shop.readings()).length).toBe(before + 4);
    const struck = (await shop.readings()).filter(({ struck: is }) => is);
    expect(struck.map(({ body }) => body.value)).toContain('2.1227 in');
    expect(errors).toEqual([]);
  } finally {
    await browser.close();
    await shop.close();
  }
});
