import { expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

const WHERE = 'GPS 51 30 N 0 7 W';

/** A picture as a camera leaves it: an Exif segment right after the start of the image. */
function withExif(jpeg: Buffer): Buffer {
  const said = Buffer.from(`Exif\0\0${WHERE}`);
  const head = Buffer.from([0xff, 0xe1, 0, said.length + 2]);
  return Buffer.concat([jpeg.subarray(0, 2), head, said, jpeg.subarray(2)]);
}

it('keeps a photo with its caption, and not where it was taken', async () => {
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/sheet/story`);
  await introduced(page, 'the photographer');
  const drawn = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    canvas.width = canvas.height = 64;
    canvas.getContext('2d')!.fillRect(8, 8, 40, 30);
    return canvas.toDataURL('image/jpeg').split(',')[1]!;
  });
  const taken = withExif(Buffer.from(drawn, 'base64'));
  expect(taken.includes(WHERE)).toBe(true);
  await page
    .getByLabel(/Another photo/)
    .setInputFiles({ name: 'crank.jpg', mimeType: 'image/jpeg', buffer: taken });
  await page.getByLabel('What it shows').fill('The crank on its blocks');
  await page.getByRole('button', { name: 'Keep it', exact: true }).last().click();
  await page.getByText('The crank on its blocks').waitFor();
  const log = async () =>
    JSON.parse(await here.shop.fettle('log', LINNET, '--kind', 'photo', '--json')) as {
      who: string;
      body: { sha256: string };
    }[];
  await expect.poll(async () => (await log()).map(({ who }) => who)).toEqual(['the photographer']);
  const [kept] = await log();
  const address = new URL(`./api/photos/${kept!.body.sha256}`, here.shop.opened.address).href;
  const bytes = await (await context.request.get(address)).body();
  expect(bytes.subarray(0, 2)).toEqual(Buffer.from([0xff, 0xd8]));
  expect(bytes.includes(WHERE)).toBe(false);
  expect(bytes.includes('Exif')).toBe(false);
  expect(errors).toEqual([]);
  await context.close();
});
