import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { chromiumStarted, SIZES } from './support/chromium.ts';
import { LINNET, workshop } from './support/workshop.ts';

/** What a first visit may load of script before it shows anything, compressed [byte]. */
const BUDGET = 100_000;

it('loads at most a hundred kilobytes of script before the page first paints', async () => {
  const [shop, browser] = await Promise.all([workshop(), chromiumStarted()]);
  try {
    const context = await browser.newContext(SIZES.phone);
    const page = await context.newPage();
    await page.goto(`${shop.opened.address}#/${LINNET}/bench`);
    await page.locator('#next-step').waitFor();
    const { loaded, paint, bench } = await page.evaluate(() => ({
      bench: performance.now(),
      paint: performance.getEntriesByName('first-contentful-paint')[0]!.startTime,
      loaded: performance
        .getEntriesByType('resource')
        .filter(({ name }) => name.endsWith('.js'))
        .map(({ name, startTime }) => ({ name, startTime })),
    }));
    const sizeOf = async (name: string): Promise<number> =>
      gzipSync(await (await context.request.get(name)).body(), { level: 9 }).length;
    const sized = await Promise.all(loaded.map(async (one) => ({ ...one, size: await sizeOf(one.name) })));
    const sum = (some: typeof sized): number => some.reduce((whole, { size }) => whole + size, 0);
    const before = sized.filter(({ startTime }) => startTime < paint);
    const kB = (bytes: number): string => `${(bytes / 1000).toFixed(1)} kB`;
    console.info(
      `Script before the first paint ${kB(sum(before))}, until the bench of a first visit ${kB(sum(sized))} gz; ` +
        `first paint after ${Math.round(paint)} ms, bench after ${Math.round(bench)} ms.`,
    );
    expect(before.length).toBeGreaterThan(0);
    expect(sum(before)).toBeLessThanOrEqual(BUDGET);
  } finally {
    await browser.close();
    await shop.close();
  }
});
