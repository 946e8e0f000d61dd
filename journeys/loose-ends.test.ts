import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();
const HOUR = 3_600_000;

const at = (place: string): string => `${here.shop.opened.address}#/${LINNET}/${place}`;

async function opened(size: keyof typeof SIZES, place = 'bench') {
  const context = await here.browser.newContext(SIZES[size]);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.goto(at('bench'));
  await introduced(page);
  if (place !== 'bench') await page.goto(at(place));
  return { context, page, errors };
}

const inLedger = async (kind: string) =>
  JSON.parse(await here.shop.fettle('log', LINNET, '--kind', kind, '--json')) as {
    readonly body: Readonly<Record<string, unknown>>;
    readonly struck: boolean;
  }[];

const tapped = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).click();

it('counts rags into a hole by taps without the server, holds the cover for them, and lets it go once they are out', async () => {
  const { context, page, errors } = await opened('phone');
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await here.shop.stop();
  await page.goto(at('loose/openings'));
  await page.reload();
  await tapped(page, 'Rod tunnels');
  await page.getByRole('heading', { name: 'Rod tunnels' }).waitFor();
  await tapped(page, 'One more');
  await tapped(page, 'One more');
  await tapped(page, /^3 rags in/);
  await page.getByText('3 rags in, 0 out: 3 are still inside').waitFor();
  await page.locator('.waiting', { hasText: '1 entry kept here, sent later' }).waitFor();
  // Read back, and gone again by one tap.
  await page.getByText('Entered: Rod tunnels: 3 rags in').waitFor();
  await tapped(page, /^Undo/);
  await page.getByText('Nothing was counted in or out here yet.').waitFor();
  await tapped(page, 'One more');
  await tapped(page, /^2 rags in/);
  await page.getByText('2 rags in, 0 out: 2 are still inside').waitFor();

  await here.shop.start();
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await page.locator('.waiting', { hasText: /^$/ }).waitFor({ state: 'attached' });
  const sent = await inLedger('opening-blocked');
  expect(sent.map(({ body, struck }) => [body.opening, body.by, body.count, struck])).toEqual([
    ['rod-tunnels', 'rag', 3, true],
    ['rod-tunnels', 'rag', 2, false],
  ]);

  // From the reason that holds a cover one tap leads to the form that settles it.
  await page.goto(at('covers/pan'));
  await page
    .getByRole('link', { name: /^Rod tunnels: 2 rags in/ })
    .first()
    .click();
  await page.getByRole('heading', { name: 'Rod tunnels' }).waitFor();
  // What is inside is what is counted out next.
  await tapped(page, /^2 rags out/);
  await page.getByText('2 rags in, 2 out: the counts match').waitFor();
  await page.goto(at('covers/pan'));
  await page.locator('.cover.at .lines').waitFor();
  expect(await page.getByRole('link', { name: /Rod tunnels/ }).count()).toBe(0);
  expect(errors).toEqual([]);
  await context.close();
});

it('goes by the device’s clock for what cures, and says so on card, paper and cover', async () => {
  const context = await here.browser.newContext(SIZES.tablet);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.clock.install();
  await page.goto(at('bench'));
  await introduced(page);
  await page.goto(at('loose/joints'));
  await tapped(page, 'Core plugs');
  await tapped(page, /Curing$/);
  await page.getByRole('group', { name: 'It went on' }).getByRole('button', { name: '1 h ago' }).click();
  await page
    .getByRole('group', { name: 'It is cured after' })
    .getByRole('button', { name: '2 h', exact: true })
    .click();
  await tapped(page, 'It is curing');
  await page
    .getByText(/curing until .*, 1 h to go/)
    .first()
    .waitFor();
  await page.clock.fastForward(HOUR / 2);
  await page
    .getByText(/curing until .*, 30 min to go/)
    .first()
    .waitFor();
  const answer = await context.request.get(
    `${here.shop.opened.address}api/jobs/${LINNET}/morning-card.pdf?paper=letter&zone=Asia/Kolkata`,
  );
  expect([answer.status(), answer.headers()['content-type']]).toEqual([200, 'application/pdf']);
  expect(
    (
      await context.request.get(
        `${here.shop.opened.address}api/jobs/${LINNET}/morning-card.pdf?zone=no/where`,
      )
    ).status(),
  ).toBe(400);
  await page.goto(at('covers/pan'));
  const reason = page.getByRole('link', { name: /^Core plugs: curing until/ });
  await reason.first().waitFor();
  // Cured: the gate lets go by itself, nobody having touched the page.
  await page.clock.fastForward(HOUR / 2 + 60_000);
  await expect.poll(() => reason.count()).toBe(0);
  expect(errors).toEqual([]);
  await context.close();
});

it('begins with how the engine was left when the job is opened on a later day, until it was seen', async () => {
  await here.shop.fettle('joint', LINNET, 'pan-screw', 'finger-tight');
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await page.clock.install();
  await page.goto(at('bench'));
  await introduced(page);
  // Straight after the last entry nothing stands before what is next.
  await page.locator('#next-step').waitFor();
  expect(await page.locator('.left-card').count()).toBe(0);
  await page.clock.fastForward(20 * HOUR);
  const card = page.locator('main.bench > .left-card:first-of-type');
  await card.waitFor();
  await card.getByText('Pan screws: finger-tight').waitFor();
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
  await tapped(page, 'Seen, go on');
  await expect.poll(() => card.count()).toBe(0);
  await page.reload();
  await page.locator('#next-step').waitFor();
  expect(await card.count()).toBe(0);
  // Always there to be looked at.
  await page
    .getByRole('link', { name: /^Loose ends/ })
    .first()
    .click();
  await page.getByRole('link', { name: 'Pan screws: finger-tight' }).click();
  await tapped(page, /Tight$/);
  await page.getByText('Nothing is open here.').waitFor();
  expect(errors).toEqual([]);
  await context.close();
});

it('marks a part, shows it standing wrong in words and shape, and puts it right', async () => {
  const { context, page, errors } = await opened('tablet', 'loose/marks/crank');
  await tapped(page, /^Where it stands/);
  await page.getByText('Agrees').waitFor();
  await tapped(page, 'notch to the front');
  await page.getByText('Stands wrong').waitFor();
  await page.getByText(/which way round it stands was not said; it must stand notch to the front/).waitFor();
  await tapped(page, 'The other way round');
  await page.getByText(/stands the other way round; it must stand notch to the front/).waitFor();
  await tapped(page, /^As marked/);
  await page.getByText('Agrees').waitFor();
  const marks = await inLedger('part-marked');
  expect(marks.at(-1)!.body).toMatchObject({ part: 'crank', home: 'crank', way: 'notch to the front' });
  expect(errors).toEqual([]);
  await context.close();
});

it('is walked by keys and pedals alone: counted, cleaned and taken back', async () => {
  await here.shop.fettle('rework', LINNET, 'block', 'bored .030 over');
  const { context, page, errors } = await opened('desk', 'loose/openings/gallery/Oil%20gallery');
  await page.getByRole('heading', { name: 'Oil gallery' }).waitFor();
  // A gallery is closed by plugs; eleven by two digits.
  await page.keyboard.type('11');
  await page.getByRole('button', { name: '11 plugs out' }).focus();
  await page.keyboard.press('Enter');
  await page.getByText('11 plugs out, 0 back in: 11 are missing').waitFor();
  await page.keyboard.press('-');
  await page.keyboard.press('PageDown');
  await page.getByText('11 plugs out, 10 back in: 1 is missing').waitFor();
  await page.keyboard.press('F8');
  await page.getByText('11 plugs out, 0 back in: 11 are missing').waitFor();

  await page.goto(at('loose/cleaning/block'));
  await page.getByRole('heading', { name: /^Block/ }).waitFor();
  for (const said of ['opened', 'washed', 'blown', 'seen through']) {
    await page.keyboard.press('PageDown');
    await page.getByText(`Entered: Block: ${said}`).waitFor();
  }
  await page.getByText('Proven clean as it is now.').waitFor();
  await page.keyboard.press('F8');
  await page.getByText('Not proven clean: seen through still wanted.').waitFor();
  expect(await page.getByText('eye shield, never at skin').count()).toBeGreaterThan(0);
  expect(errors).toEqual([]);
  await context.close();
});
