import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { chromiumStarted, PATIENCE, SIZES } from './support/chromium.ts';
import { LINNET, workshop } from './support/workshop.ts';

/** What may be loaded of script before the bench shows, compressed [byte]. */
const BUDGET = 100_000;

/** Scripts the document itself names: its own, and what that imports outright. */
const named = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLScriptElement | HTMLLinkElement>('script, link[rel=modulepreload]')]
      .map((one) => ('src' in one ? one.src : one.href))
      .filter((src) => src !== ''),
  );

it('shows a bench that is known with at most a hundred kilobytes of script', async () => {
  const [shop, browser] = await Promise.all([workshop(), chromiumStarted()]);
  try {
    const context = await browser.newContext({ ...SIZES.phone, serviceWorkers: 'block' });
    context.setDefaultTimeout(PATIENCE);
    const page = await context.newPage();
    await page.goto(`${shop.opened.address}#/${LINNET}/bench`);
    await page.locator('#next-step').waitFor();
    const bench = await page.evaluate(() => performance.now());
    const paint = await page.evaluate(
      () => performance.getEntriesByName('first-contentful-paint')[0]!.startTime,
    );
    const loaded = await page.evaluate(() =>
      performance
        .getEntriesByType('resource')
        .map(({ name }) => name)
        .filter((name) => name.endsWith('.js')),
    );
    // What the document names now is what Vite wrote there and what later imports added; the file says the first.
    const document = await (await context.request.get(shop.opened.address)).text();
    const first = (await named(page)).filter((src) => document.includes(new URL(src).pathname));
    const sizes = new Map<string, number>();
    for (const name of new Set([...loaded, ...first]))
      sizes.set(name, gzipSync(await (await context.request.get(name)).body(), { level: 9 }).length);
    const sum = (names: readonly string[]): number => names.reduce((all, name) => all + sizes.get(name)!, 0);
    const kB = (bytes: number): string => `${(bytes / 1000).toFixed(1)} kB`;
    console.info(
      `Script of the document ${kB(sum(first))}, until the bench of a first visit ${kB(sum(loaded))} gz; ` +
        `first paint after ${Math.round(paint)} ms, bench after ${Math.round(bench)} ms.`,
    );
    expect(first.length).toBeGreaterThan(1);
    expect(sum(first)).toBeLessThanOrEqual(BUDGET);

    // These do suffice: with every other script withheld, the bench seen before is there again.
    await page.route('**/*.js', (route) =>
      first.includes(route.request().url()) ? route.continue() : route.abort(),
    );
    await page.reload();
    await page.locator('#next-step').waitFor();
  } finally {
    await browser.close();
    await shop.close();
  }
});
