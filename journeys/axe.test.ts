import { AxeBuilder } from '@axe-core/playwright';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

/** A place, with what stands there once it is complete. */
interface PlaceShown {
  readonly name: string;
  readonly hash: string;
  readonly there: string;
  /** What is done there first. */
  readonly first?: (page: Page) => Promise<unknown>;
}

/** Phone and tablet show either what is said or what is to be said. */
async function again(page: Page): Promise<void> {
  const button = page.getByRole('button', { name: 'Again' });
  if (await button.isVisible()) await button.click();
}

const PLACES: readonly PlaceShown[] = [
  { name: 'the jobs', hash: '', there: 'main.jobs .places a' },
  { name: 'the bench', hash: 'bench', there: '.pressure-line strong' },
  { name: 'a measurement by number', hash: 'at/crank.runout', there: '.pad' },
  { name: 'a measurement that is told', hash: 'at/crank.end-float', there: '#go-on' },
  {
    name: 'a measurement by leaves',
    hash: 'at/pump.radial-clearance',
    there: '[data-leaf]',
    first: async (page) => {
      await again(page);
      await page.getByLabel('With').selectOption('leaves');
    },
  },
  { name: 'something seen', hash: 'at/pump.mount-stud', there: '#what-it-says', first: again },
  { name: 'oil', hash: 'oil', there: 'main svg' },
  {
    name: 'the maps',
    hash: 'maps',
    there: 'main .map-folds summary',
    first: async (page) => {
      // A phone asks first of what.
      const kind = page.getByRole('button', { name: /^Journals/ });
      if (await kind.isVisible()) await kind.click();
    },
  },
  { name: 'how it was left', hash: 'loose', there: '.left-card h2' },
  { name: 'the openings', hash: 'loose/openings', there: 'main h2' },
  { name: 'one opening', hash: 'loose/openings/rod-tunnels', there: '.counter' },
  { name: 'the joints', hash: 'loose/joints', there: '.loose-rows a' },
  {
    name: 'a joint that cures',
    hash: 'loose/joints/pan-screw',
    there: '.cure-form',
    first: (page) => page.getByRole('button', { name: /Wet, to be closed on$/ }).click(),
  },
  { name: 'the marks', hash: 'loose/marks', there: '.loose-rows a' },
  { name: 'one mark', hash: 'loose/marks/crank', there: '.as-marked' },
  { name: 'the cleaning', hash: 'loose/cleaning', there: '.loose-rows a' },
  { name: 'one cleaning', hash: 'loose/cleaning/block', there: '.steps' },
  { name: 'the covers', hash: 'covers', there: 'main svg' },
  { name: 'one cover', hash: 'covers/pump-cover', there: 'main svg' },
  { name: 'limits', hash: 'sheet/limits', there: 'main.sheet h2' },
  { name: 'instruments', hash: 'sheet/instruments', there: 'main.sheet h2' },
  { name: 'parts', hash: 'sheet/parts', there: 'main.sheet h2' },
  { name: 'matching', hash: 'decide/matching', there: 'main.sheet h2' },
  { name: 'sizes', hash: 'decide/sizes', there: '.block h3' },
  { name: 'stack-ups', hash: 'decide/stacks', there: '.block h3' },
  { name: 'basket', hash: 'decide/basket', there: '.basket .figure' },
  { name: 'time line', hash: 'decide/time-line', there: '.time-line .figure' },
  { name: 'orders', hash: 'decide/orders', there: 'main.sheet h2' },
  { name: 'story', hash: 'sheet/story', there: 'main.sheet h2' },
  { name: 'units and files', hash: 'sheet/units', there: 'main.sheet h2' },
  { name: 'the entries', hash: 'book', there: 'main ul.lines li' },
];

/** The side of what a hand must hit, by size [px]: 15 mm at 6.0, 5.2 and 3.8 px/mm. */
const TARGETS = { phone: 90, tablet: 78, desk: 57 };
/** What is hit all day; words inside a sentence are exempt. */
const MAIN_TARGETS =
  'button:not(.quiet), a.button, a.next-step, select, nav.places a, a.neighbour, [data-leaf]';

/** Lines that open, opened as far as a page holds different ones; a sheet has a hundred of the same form. */
const OPENED = 4;

async function opened(page: Page): Promise<void> {
  // Twice: what opens may hold others.
  for (let i = 0; i < 2; i++) {
    await page.evaluate((most) => {
      for (const one of [...document.querySelectorAll('details')].slice(0, most)) one.open = true;
    }, OPENED);
    await page.waitForTimeout(50);
  }
  await page.locator('[aria-busy=true]').waitFor({ state: 'detached' });
}

async function shown(page: Page, { hash, there, first }: PlaceShown): Promise<void> {
  await page.evaluate(
    (to) => {
      location.hash = to;
    },
    hash === '' ? '#/' : `#/${LINNET}/${hash}`,
  );
  await page.locator(hash.startsWith('at/') ? 'main.measure .asked-name' : 'main h1').waitFor();
  await first?.(page);
  await page.locator(there).first().waitFor();
  await opened(page);
}

/** What is too small to hit or stands beyond the edge. */
const misfitsOn = (page: Page, least: number): Promise<string[]> =>
  page.evaluate(
    ({ selector, least }) => {
      const misfits: string[] = [];
      const { scrollWidth, clientWidth } = document.documentElement;
      if (scrollWidth > clientWidth) misfits.push(`scrolls sideways: ${scrollWidth} of ${clientWidth}`);
      for (const one of document.querySelectorAll(selector)) {
        const { width, height } = one.getBoundingClientRect();
        if (width === 0 || !one.checkVisibility()) continue;
        // Half a dot is how a browser rounds.
        if (Math.min(width, height) < least - 0.5)
          misfits.push(`${Math.round(width)} × ${Math.round(height)}: ${one.outerHTML.slice(0, 90)}`);
      }
      return misfits;
    },
    { selector: MAIN_TARGETS, least },
  );

it('sees what offends: a button without a name, pale ink, a key too small, a line too long', async () => {
  const context = await here.browser.newContext(SIZES.phone);
  const page = await context.newPage();
  await page.setContent(
    '<html lang="en"><title>x</title><meta name="viewport" content="width=device-width"><main><h1>x</h1><button style="width:20px;height:20px"></button>' +
      '<p style="color:#bbb;background:#fff;width:900px">pale</p></main></html>',
  );
  const { violations } = await new AxeBuilder({ page }).setLegacyMode().analyze();
  expect(violations.map(({ id }) => id)).toEqual(expect.arrayContaining(['button-name', 'color-contrast']));
  const misfits = await misfitsOn(page, TARGETS.phone);
  expect(misfits.join('\n')).toMatch(/scrolls sideways: 9\d\d of 390\n20 × 20/);
  await context.close();
});

describe.each(Object.keys(SIZES) as (keyof typeof SIZES)[])('on the %s', (size) => {
  let context: BrowserContext;
  let page: Page;
  let errors: string[];
  beforeAll(async () => {
    context = await here.browser.newContext(SIZES[size]);
    errors = errorsOf(context);
    page = await context.newPage();
    await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
    await introduced(page);
  });
  afterAll(() => context?.close());

  it.each(PLACES)('$name offends no rule of access in light and dark, and fits', async (place) => {
    const found: string[] = [];
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      await shown(page, place);
      const axe = new AxeBuilder({ page }).setLegacyMode();
      // The page is the same in the dark but for its inks.
      if (colorScheme === 'dark') axe.withRules(['color-contrast', 'link-in-text-block']);
      const { violations, passes } = await axe.analyze();
      expect(passes.length).toBeGreaterThan(colorScheme === 'dark' ? 0 : 5);
      for (const { id, nodes } of violations)
        for (const { html, failureSummary } of nodes.slice(0, 3))
          found.push(`${colorScheme}, ${id}: ${html.slice(0, 160)} ${failureSummary ?? ''}`);
    }
    found.push(...(await misfitsOn(page, TARGETS[size])));
    expect(found).toEqual([]);
    expect(errors).toEqual([]);
  });
});
