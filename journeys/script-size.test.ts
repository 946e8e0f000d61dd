import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { chromiumStarted, PATIENCE, SIZES } from './support/chromium.ts';
import { LINNET, workshop } from './support/workshop.ts';

/** What may be loaded of script before the bench shows what is next, compressed [byte]. */
const BUDGET = 100_000;
/** Within this something useful is painted [ms]. */
const FIRST_PAINT = 1000;

/** Notes when the bench first says what is next; runs in the page before anything else does. */
function noteBench(): void {
  const at = globalThis as { benchAt?: number };
  new MutationObserver((_, observer) => {
    if (!document.getElementById('next-step')) return;
    at.benchAt = performance.now();
    observer.disconnect();
  }).observe(document, { childList: true, subtree: true });
}

/** Every script asked for so far, and when [ms]. */
const scripts = (page: Page): Promise<{ name: string; startTime: number }[]> =>
  page.evaluate(() =>
    performance
      .getEntriesByType('resource')
      .map(({ name, startTime }) => ({ name, startTime }))
      .filter(({ name }) => name.endsWith('.js')),
  );

it('shows the bench on a first visit with at most a hundred kilobytes of script', async () => {
  const [shop, browser] = await Promise.all([workshop(), chromiumStarted()]);
  try {
    const context = await browser.newContext({ ...SIZES.phone, serviceWorkers: 'block' });
    context.setDefaultTimeout(PATIENCE);
    const page = await context.newPage();
    await page.addInitScript(noteBench);
    await page.goto(`${shop.opened.address}#/${LINNET}/bench`);
    await page.locator('#next-step').waitFor();
    const bench = await page.evaluate(() => (globalThis as { benchAt?: number }).benchAt!);
    const paint = await page.evaluate(
      () => performance.getEntriesByName('first-contentful-paint')[0]!.startTime,
    );
    // Nothing is kept here yet and no worker helps: all of this was fetched for this one picture.
    const until = (await scripts(page)).filter(({ startTime }) => startTime <= bench).map(({ name }) => name);
    const sizes = await Promise.all(
      until.map(
        async (name) => gzipSync(await (await context.request.get(name)).body(), { level: 9 }).length,
      ),
    );
    const sum = sizes.reduce((all, one) => all + one, 0);
    console.info(
      `Script until the bench of a first visit ${(sum / 1000).toFixed(1)} kB gz in ${until.length} files; ` +
        `first paint after ${Math.round(paint)} ms, bench after ${Math.round(bench)} ms.`,
    );
    expect(until.length).toBeGreaterThan(1);
    expect(sum).toBeLessThanOrEqual(BUDGET);
    expect(paint).toBeLessThan(FIRST_PAINT);

    // The rest does come afterwards, and the pressure with it.
    await page.getByText(/Oil at/).waitFor();
    expect((await scripts(page)).length).toBeGreaterThan(until.length);
    await page.waitForFunction(
      () =>
        new Promise<boolean>((done) => {
          const open = indexedDB.open('fettle');
          open.onsuccess = () => {
            const all = open.result.transaction('sheets').objectStore('sheets').getAll();
            all.onsuccess = () => done(all.result.length > 0 && all.result.every((one) => !one.unchecked));
          };
        }),
    );

    // These do suffice: with every other script withheld, the bench seen before is there again.
    await page.route('**/*.js', (route) =>
      until.includes(route.request().url()) ? route.continue() : route.abort(),
    );
    await page.reload();
    await page.locator('#next-step').waitFor();
  } finally {
    await browser.close();
    await shop.close();
  }
});
