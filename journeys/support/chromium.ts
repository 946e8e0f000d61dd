import { existsSync } from 'node:fs';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';

const CHROMIUM = '/usr/bin/chromium';

/** The three sizes the page is made for. */
export const SIZES = {
  phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
  tablet: { viewport: { width: 1180, height: 820 }, hasTouch: true, isMobile: true },
  desk: { viewport: { width: 1440, height: 900 } },
} as const;

/** How long a journey waits for anything to show [ms]. */
export const PATIENCE = 10_000;

export function chromiumStarted(): Promise<Browser> {
  if (!existsSync(CHROMIUM))
    throw new Error(`${CHROMIUM} is missing: these journeys need it (apt-get install chromium).`);
  return chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

/** Not errors of the page: a request refused or unanswered, and a header that means nothing over plain HTTP. */
const NOT_OURS = /net::ERR_|Failed to load resource|Cross-Origin-Opener-Policy header has been ignored/;

/** Every error a page of this context throws or prints. */
export function errorsOf(context: BrowserContext): string[] {
  const errors: string[] = [];
  const listened = (page: Page): void => {
    page.on('pageerror', (error) => errors.push(String(error)));
    page.on('console', (line) => {
      if (line.type() === 'error' && !NOT_OURS.test(line.text())) errors.push(line.text());
    });
  };
  context.setDefaultTimeout(PATIENCE);
  for (const page of context.pages()) listened(page);
  context.on('page', listened);
  return errors;
}

/** Gives the name of who writes, as the page asks it. */
export async function introduced(page: Page, name = 'the journey'): Promise<void> {
  await page.getByLabel(/Who is writing/).fill(name);
  await page.getByRole('button', { name: 'That is me' }).click();
  await page.getByText(`Written by ${name}`).waitFor();
}

/** Presses the keys on the screen at the measurement that is open. */
export async function pressed(page: Page, digits: string): Promise<void> {
  // An earlier reading is shown first; without one the keys are there already.
  await page.locator('#go-on, .pad').first().waitFor();
  const again = page.getByRole('button', { name: 'Again' });
  if (await again.isVisible()) await again.click();
  for (const digit of digits)
    await page.getByRole('button', { name: digit === '.' ? 'point' : digit, exact: true }).click();
}

/** Enters a number by the keys on the screen, until its verdict stands there. */
export async function entered(page: Page, digits: string): Promise<void> {
  await pressed(page, digits);
  await page.getByRole('button', { name: 'Enter', exact: true }).click();
  await page.locator('#go-on').waitFor();
}
