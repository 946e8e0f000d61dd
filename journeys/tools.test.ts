import { expect, it } from 'vitest';
import { errorsOf, introduced, PATIENCE, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

it('a check typed by the keys fails by its own figures, withholds the verdicts, and gives them back when corrected', async () => {
  // The demo checks its depth micrometer after the readings, and finds it good: without that, the readings are open.
  const log = JSON.parse(
    await here.shop.fettle('log', 'linnet', '--kind', 'instrument-checked', '--json'),
  ) as {
    id: string;
    body: { instrument: string };
  }[];
  const after = log.filter(({ body }) => body.instrument === 'depth').at(-1)!;
  await here.shop.fettle('strike', 'linnet', after.id, '--why', 'held against the wrong block');

  const context = await here.browser.newContext({ ...SIZES.phone, serviceWorkers: 'block' });
  context.setDefaultTimeout(PATIENCE);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page, 'Ada');
  const pickup = async (): Promise<string | null> => {
    await page.goto(`${here.shop.opened.address}#/${LINNET}/at/pan.pickup-to-floor`);
    return page.locator('.verdict-word').first().textContent();
  };
  expect(await pickup()).toMatch(/^out/i);

  await page.goto(`${here.shop.opened.address}#/${LINNET}/sheet/instruments`);
  const depth = page.locator('.tools > li').filter({ has: page.getByText('Depth micrometer') });
  await depth.getByText('Check it now').tap();
  await depth.getByLabel('Held against').fill('0.5000');
  await depth.getByLabel('It reads').tap();
  for (const key of ['0', 'point', '5', '0', '0', '3'])
    await depth.getByRole('button', { name: key, exact: true }).tap();
  await depth.getByText('● Good.').waitFor();
  await depth.getByRole('button', { name: 'Take back the last digit' }).tap();
  await depth.getByRole('button', { name: '6', exact: true }).tap();
  await depth.getByText('✖ Failed.').waitFor();
  await depth.getByRole('button', { name: 'Log the check' }).tap();
  await depth
    .getByText(/0\.0006 in off, 0\.0004 in allowed: failed\. \d+ readings to be taken again/)
    .waitFor();
  expect(await pickup()).toMatch(/cannot\s*tell/i);
  await page.getByText('To be taken again', { exact: false }).first().waitFor();

  await page.goto(`${here.shop.opened.address}#/${LINNET}/sheet/instruments`);
  await depth.getByText('All off by just that?').tap();
  await depth.getByLabel('Add to each').fill('-0.0006 in');
  await depth.getByLabel('Known to ±').fill('0.0003 in');
  await depth.getByRole('button', { name: 'Correct them' }).tap();
  await depth.getByText('Say why').waitFor();
  await depth.getByLabel('Why all are off').fill('six tenths deep before and after');
  await depth.getByRole('button', { name: 'Correct them' }).tap();
  await depth.getByText(/readings corrected by what was found/).waitFor();
  expect(await pickup()).toMatch(/^out/i);
  expect(errors).toEqual([]);
  await context.close();
});

it('a tool added by its type is declared with a budget, and its owner’s repeatability is studied by the keys', async () => {
  const context = await here.browser.newContext({ ...SIZES.tablet, serviceWorkers: 'block' });
  context.setDefaultTimeout(PATIENCE);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page, 'Bea');
  await page.goto(`${here.shop.opened.address}#/${LINNET}/sheet/instruments`);
  await page.getByLabel('What it is').selectOption('micrometer');
  await page.getByLabel('Called').fill('Small micrometer');
  await page.getByLabel('Measures up to').fill('1 in');
  await page.getByText('error of the screw and the anvils').waitFor();
  await page.getByRole('button', { name: 'Add it' }).tap();
  const tool = page.locator('.tools > li').filter({ has: page.getByText('Small micrometer') });
  await tool.getByText('What its ± is built from').tap();
  // 4 µm/√3, 2.54/√12 and 2.54/2 µm: no rod is needed to set it.
  const U = (2 * Math.hypot(4 / Math.sqrt(3), 2.54 / Math.sqrt(12), 1.27)) / 25400;
  expect(await tool.locator('.good-for').textContent()).toBe(`±${U.toFixed(6)} in`);
  await tool.getByText('Your own repeatability with it').tap();
  for (const digit of ['1', '3', '2', '2', '4', '0']) {
    await tool.getByLabel(/^Reading/).fill('');
    for (const key of ['point', '5', '0', '0', digit])
      await tool.getByRole('button', { name: key, exact: true }).tap();
    await tool.getByRole('button', { name: 'Next reading' }).tap();
  }
  // 1 3 2 2 4 0: mean 2, squares 1 1 0 0 4 4 = 10, over 5 degrees: s = 1.414 tenths of a thou.
  await tool.getByText('Your own repeatability with Small micrometer is 0.000141 in').first().waitFor();
  await tool.getByRole('button', { name: 'Keep this study' }).tap();
  await tool.getByRole('button', { name: 'Adopt it' }).tap();
  await tool.getByText('one thing, adopted').waitFor();
  expect(await tool.locator('.good-for').textContent()).not.toBe(`±${U.toFixed(6)} in`);
  expect(errors).toEqual([]);
  await context.close();
});
