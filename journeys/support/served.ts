import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { chromiumStarted } from './chromium.ts';
import { type Workshop, workshop } from './workshop.ts';

/** One workshop and one browser for all journeys of a file: open before the first, closed after the last. */
export function served(): { readonly shop: Workshop; readonly browser: Browser } {
  let shop: Workshop | undefined;
  let browser: Browser | undefined;
  beforeAll(async () => {
    [shop, browser] = await Promise.all([workshop(), chromiumStarted()]);
  });
  afterAll(async () => {
    await browser?.close();
    await shop?.close();
  });
  const there = <T>(opened: T | undefined): T => {
    if (opened === undefined) throw new Error('The workshop opens before the first journey, not earlier.');
    return opened;
  };
  return {
    get shop() {
      return there(shop);
    },
    get browser() {
      return there(browser);
    },
  };
}
