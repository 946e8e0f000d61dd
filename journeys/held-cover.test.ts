import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

const WHO = 'Quill Harrowgate';
const WHY = 'trial fit of the cover only, it comes off again before the pan goes on';

it('holds a cover until somebody passes the hold by name and reason, and the build book has both', async () => {
  const context = await here.browser.newContext(SIZES.tablet);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/covers/pump-cover`);
  const cover = page.locator('#cover-pump-cover');
  await cover.locator('summary', { hasText: /held by \d+/ }).waitFor();
  await introduced(page, WHO);
  const goesOn = cover.getByRole('button', { name: 'It goes on' });
  expect(await goesOn.count(), 'a held cover is not offered to be closed').toBe(0);
  // Nor does the ledger take it from elsewhere.
  await expect(here.shop.fettle('--who', WHO, 'gate', LINNET, 'pump-cover', '--close')).rejects.toThrow(
    /held/,
  );

  const past = cover.getByRole('button', { name: 'Go past the hold' });
  await past.click();
  await cover.getByText('Say why').waitFor();
  expect(await goesOn.count()).toBe(0);
  await cover.getByLabel(/Why go past the hold/).fill(WHY);
  await past.click();
  await cover.getByText(`Hold passed by ${WHO}`).waitFor();
  await cover.getByText(WHY).waitFor();

  await goesOn.click();
  await cover.locator('summary', { hasText: 'closed' }).waitFor();
  await cover.getByRole('button', { name: 'It comes off again' }).waitFor();
  const logged = async () =>
    (JSON.parse(await here.shop.fettle('log', LINNET, '--json')) as { kind: string; who: string }[])
      .filter(({ who }) => who === WHO)
      .map(({ kind }) => kind);
  await expect.poll(logged).toEqual(['hold-passed', 'cover-closed']);

  const answer = await context.request.get(
    new URL(`./api/jobs/${LINNET}/build-book.pdf?paper=a4`, here.shop.opened.address).href,
  );
  expect(answer.status()).toBe(200);
  const file = join(here.shop.directory, 'build-book.pdf');
  writeFileSync(file, await answer.body());
  const text = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8', maxBuffer: 1 << 26 });
  const flowing = text.replace(/\s+/g, ' ');
  expect(flowing).toContain(`Hold passed by ${WHO}`);
  expect(flowing).toContain(WHY);
  expect(errors).toEqual([]);
  await context.close();
});
