import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { errorsOf, introduced, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();

/** What of this page, as it now stands, offends a rule of access. */
async function offences(page: Page): Promise<string[]> {
  const { violations, passes } = await new AxeBuilder({ page }).setLegacyMode().analyze();
  expect(passes.length).toBeGreaterThan(5);
  return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
}

async function atTheOil(page: Page): Promise<void> {
  await page.goto(`${here.shop.opened.address}#/${LINNET}/bench`);
  await introduced(page);
  await page.goto(`${here.shop.opened.address}#/${LINNET}/oil`);
  await page.locator('[data-tread]').first().waitFor();
}

it('repairs a tread in thought by a tap or a key, and foretells what the command line does', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  const thought = page.locator('.thought');
  const named = (name: string) => page.locator(`[data-tread^="${name}"]`);
  await named('Main bearing').click();
  await named('Pump end').focus();
  await page.keyboard.press('Enter');
  await named('Pump radial').focus();
  await page.keyboard.press(' ');
  await expect
    .poll(() => thought.textContent())
    .toMatch(/In thought only: (?=.*Pump end)(?=.*Pump radial).*Main bear/);
  // The stair is drawn anew under the focus.
  expect(await page.evaluate(() => (document.activeElement as SVGElement).dataset.tread)).toMatch(/radial/);
  const words = (await thought.textContent())!;
  const [, figure, verdict] = /^([\d.]+ ±[\d.]+ psi)\s*(In|Out|Cannot tell)/.exec(words) ?? [];
  expect(verdict, words).toBe('In');
  const said = await here.shop.fettle('oil', LINNET, '--lift', 'pump end', 'pump radial', 'main');
  expect(said.replaceAll(/\s+/g, ' ')).toContain(`The gauge would show ${figure}`);
  await page.getByRole('button', { name: 'Put all back' }).click();
  await expect.poll(() => page.locator('[data-tread][aria-pressed=true]').count()).toBe(0);
  expect(errors).toEqual([]);
  await context.close();
});

it('judges a gauge reading at once, and stops the engine where there is no pressure', async () => {
  const context = await here.browser.newContext(SIZES.phone);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  const start = page.locator('.first-start');
  await start.getByText(/within 10 s of turning: STOP/).waitFor();
  await start.locator('summary', { hasText: 'Enter what a gauge showed' }).click();
  const entered = async (pressure: string, temperature: string): Promise<void> => {
    await start.getByLabel('Pressure', { exact: true }).fill(pressure);
    await start.getByLabel('Crank speed').fill('600 rpm');
    await start.getByLabel('Oil in the sump').fill(temperature);
    await start.getByLabel('Start-up').check();
    await start.getByRole('button', { name: 'Enter', exact: true }).click();
  };
  const answer = start.locator('form .judged');
  await entered('18 psi', '57 degC');
  await expect.poll(() => answer.textContent()).toContain('As expected');
  expect(await answer.textContent()).not.toContain('STOP');
  await entered('8 psi', '93 degC');
  await expect.poll(() => answer.textContent()).toMatch(/As expected, but under what the sheet wants\. STOP/);
  await entered('0 psi', '20 degC');
  await expect.poll(() => answer.textContent()).toMatch(/NO PRESSURE\. STOP the engine/);
  expect(await start.locator('li .judged').count()).toBe(3);
  expect(errors).toEqual([]);
  await context.close();
});

it('weighs the faults when asked, and plans the cheapest repair by itself', async () => {
  const context = await here.browser.newContext(SIZES.tablet);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  await page.locator('.plan .figure').waitFor();
  expect(await page.locator('.plan').textContent()).toMatch(/Price \d+ EUR/);
  const price = /Price ([\d.]+)/.exec((await page.locator('.plan .figure').textContent())!)?.[1];
  expect(JSON.parse(await here.shop.fettle('plan', LINNET, '--json')).best.price).toBe(Number(price));
  await page.getByLabel('As found, by the gauge alone').check();
  await page.getByRole('button', { name: 'Weigh the faults' }).click();
  await page.locator('.families li').first().waitFor();
  const first = (await page.locator('.families li').first().textContent())!;
  const { families, tests } = JSON.parse(
    await here.shop.fettle('diagnose', LINNET, '--before-strip', '--json'),
  );
  expect(first).toContain(families[0].name);
  expect(first).toContain(`${Math.round(100 * families[0].probability)} %`);
  await page.getByRole('heading', { name: `The next test: ${tests[0].name}` }).waitFor();
  expect(errors).toEqual([]);
  await context.close();
});

/** What the three pictures that follow a hand show. */
const moving = (page: Page): Promise<(string | null)[]> =>
  Promise.all(
    ['.stair svg', '.curve svg', '.planned li:first-child'].map((one) =>
      page.locator(one).first().textContent(),
    ),
  );

it('drags a clearance by keys, by the pointer and as a number: curve, stair, plan and verdict move with it', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  await page.locator('.planned li').first().waitFor();
  const before = await moving(page);
  const curve = () => page.locator('.curve [data-mark=curve] polyline').first().getAttribute('points');
  const curveBefore = await curve();
  await page
    .getByLabel('Clearance to try')
    .selectOption({ label: 'Pump end clearance, gears to worn cover' });
  const slide = page.locator('.slide input');
  const number = page.locator('.typed input');
  const measured = Number(await number.inputValue());
  await slide.focus();
  for (let i = 0; i < 8; i++) await page.keyboard.press('ArrowLeft');
  const byKeys = Number(await number.inputValue());
  expect(byKeys).toBeLessThan(measured);
  const after = await moving(page);
  for (const [i, one] of after.entries()) expect(one, String(i)).not.toBe(before[i]);
  expect(after[2]).toContain('as thought');
  expect(await curve()).not.toBe(curveBefore);
  // By the pointer further down: more pressure.
  const idle = async () => Number(/^([\d.]+)/.exec((await page.locator('.thought').textContent())!)?.[1]);
  const pressure = await idle();
  const box = (await slide.boundingBox())!;
  await page.mouse.move(box.x + box.width * 0.5, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.25, box.y + box.height / 2, { steps: 8 });
  await page.mouse.up();
  expect(Number(await number.inputValue())).toBeLessThan(byKeys);
  expect(await idle()).toBeGreaterThan(pressure);
  // Typed as new it is what the command line foretells of that repair; the verdict is a word beside its shape.
  await number.fill('0.0025');
  const words = (await page.locator('.thought').textContent())!;
  const [, figure, verdict] = /^([\d.]+ ±[\d.]+ psi)\s*(In|Out|Cannot tell)/.exec(words) ?? [];
  const said = (await here.shop.fettle('oil', LINNET, '--lift', 'pump end')).replaceAll(/\s+/g, ' ');
  expect(said).toContain(`The gauge would show ${figure}`);
  expect(verdict).toBe('Out');
  expect(await page.locator('.thought .mark svg').count()).toBe(2);
  await page.getByRole('button', { name: 'Put back', exact: true }).click();
  await expect.poll(() => page.locator('.thought').textContent()).toMatch(/^Drag a clearance/);
  expect(await curve()).toBe(curveBefore);
  expect(Number(await number.inputValue())).toBe(measured);
  expect(errors).toEqual([]);
  await context.close();
});

it('repairs a tread in part where it is dragged, and whole at the end of the way', async () => {
  const context = await here.browser.newContext(SIZES.tablet);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  const tread = page.locator('[data-tread^="Main bearing"]');
  const thought = page.locator('.thought');
  // Once the doubts have come the stair is not drawn anew by itself.
  await expect.poll(() => page.locator('.stair svg').textContent()).toMatch(/alone [\d.]+ ±/);
  await tread.scrollIntoViewIfNeeded();
  const box = (await tread.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 50, y, { steps: 6 });
  await page.mouse.up();
  await expect.poll(() => thought.textContent()).toMatch(/In thought only: Main bearing clearance 0\.00/);
  expect(await page.locator('.stair svg').textContent()).toMatch(/% repaired/);
  expect(await offences(page)).toEqual([]);
  expect(await tread.getAttribute('aria-pressed')).toBe('false');
  await tread.focus();
  for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowRight');
  expect(await tread.getAttribute('aria-pressed')).toBe('true');
  await expect.poll(() => thought.textContent()).toMatch(/Main bearing clearance repaired/);
  for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowLeft');
  await expect.poll(() => thought.textContent()).toMatch(/^Drag a clearance/);
  expect(errors).toEqual([]);
  await context.close();
});

/** Notes how many draws were shown, one after the other; runs in the page before anything else does. */
function noteDraws(): void {
  const at = globalThis as { draws?: string[] };
  at.draws = [];
  new MutationObserver(() => {
    const now = document.querySelector<HTMLElement>('[data-trials]')?.dataset.trials;
    if (now !== undefined && at.draws!.at(-1) !== now) at.draws!.push(now);
  }).observe(document, { childList: true, subtree: true, attributes: true });
}

it.each(['a worker', 'the page itself'])(
  'counts its draws up to 2000 by %s, the same as the command line’s',
  async (by) => {
    const context = await here.browser.newContext(SIZES.phone);
    const errors = errorsOf(context);
    const page = await context.newPage();
    await page.addInitScript(noteDraws);
    if (by !== 'a worker') await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'Worker'));
    await atTheOil(page);
    await page.locator('[data-trials="2000"]').waitFor();
    await page.locator('.plan .figure').waitFor();
    expect(page.workers().length).toBe(by === 'a worker' ? 1 : 0);
    expect(await page.evaluate(() => (globalThis as { draws?: string[] }).draws)).toEqual([
      '200',
      '600',
      '1200',
      '2000',
    ]);
    const words = (await page.locator('.trials').textContent())!;
    const { pressures } = JSON.parse(await here.shop.fettle('oil', LINNET, '--trials', '2000', '--json'));
    const psi = (pascal: number): string => (pascal / 6894.757293168).toFixed(1);
    const { from, to } = pressures[0].monte_carlo;
    expect(words).toContain(`By 2000 draws (seed 1)`);
    expect(words).toContain(`${psi(from)} to ${psi(to)} psi`);
    expect(errors).toEqual([]);
    await context.close();
  },
);

it('unrolls the film of a bearing with the figures of the command line, and a tap on the map says its pressure', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  await page.locator('summary', { hasText: 'The films in the bearings' }).click();
  const films = page.locator('.films');
  await films.locator('select').first().selectOption('rod-1');
  await films.getByRole('heading', { name: /The film of rod-1, unrolled/ }).waitFor();
  await films.getByText(/do not judge it/).waitFor();
  expect(await offences(page)).toEqual([]);
  const said = await here.shop.fettle('film', LINNET, '--speed', '600rpm');
  for (const row of await films.locator('tbody tr').all()) {
    const cells = await row.locator('th, td').allTextContents();
    const line = said.split('\n').find((one) => one.trim().startsWith(cells[0]!));
    for (const cell of cells) expect(line, cells[0]).toContain(cell);
  }
  await page.locator('summary', { hasText: 'Over speed and temperature' }).click();
  const map = page.locator('svg', { has: page.locator('[data-mark=tints]') });
  const place = (await map.locator('[data-mark=tints]').boundingBox())!;
  const whole = (await map.boundingBox())!;
  const position = {
    x: place.x - whole.x + place.width * 0.75,
    y: place.y - whole.y + place.height * 0.5,
  };
  await map.click({ position });
  const speed = await page.getByLabel('Crank, rpm').inputValue();
  const temperature = await page.getByLabel('Sump, °C').inputValue();
  // From 600 to 3000 rpm three quarters of the way.
  expect(speed).toBe('2400');
  const at = await here.shop.fettle(
    'oil',
    LINNET,
    '--speed',
    `${speed}rpm`,
    '--temperature',
    `${temperature}degC`,
  );
  const figure = (await page.locator('.spot [role=status]').textContent())!;
  expect(figure).toMatch(/^[\d.]+ ±[\d.]+ psi$/);
  expect(at).toContain(figure);
  expect(errors).toEqual([]);
  await context.close();
});

it('plans as sure as it is asked to, keeps that for the job, and says what measuring would bring', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  await page.locator('.plan .figure').waitFor();
  expect(await page.getByLabel('95 %').isChecked()).toBe(true);
  const plan = page.locator('.plan');
  for (const [label, share] of [
    ['99 %', '0.99'],
    ['80 %', '0.8'],
  ] as const) {
    await page.getByLabel(label).check();
    await expect.poll(() => plan.getAttribute('data-busy')).toBe('false');
    const { best, frontier } = JSON.parse(
      await here.shop.fettle('plan', LINNET, '--confidence', share, '--measure', '--json'),
    );
    const words = (await plan.textContent())!;
    if (best) expect(words).toContain(`Price ${best.price} EUR`);
    else expect(words).toContain(`The surest is ${(100 * frontier.at(-1).chance).toFixed(1)} %`);
  }
  await page.reload();
  await page.locator('.plan .figure').waitFor();
  expect(await page.getByLabel('80 %').isChecked()).toBe(true);
  const moves = await here.shop.fettle('plan', LINNET, '--confidence', '0.8', '--measure');
  const measuring = (await plan.textContent())!.replaceAll(/\s+/g, ' ');
  if (moves.includes('measuring better saves nothing here'))
    expect(measuring).toContain('saves nothing here');
  else expect(measuring).toMatch(/Measuring better is the (cheapest )?next move/);
  await page.locator('summary', { hasText: 'What would narrow the band' }).click();
  await page.getByText(/The variance by its causes/).waitFor();
  const narrow = (await here.shop.fettle('oil', LINNET, '--narrow')).replaceAll(/\s+/g, ' ');
  const best = (await page
    .getByText(/measured better, narrows it most|No single reading narrows it much/)
    .textContent())!;
  expect(narrow).toContain(
    /(?:[A-Z][^.]*, measured better|No single reading)[^:]*: at best ±[\d.]+ psi/.exec(best)![0],
  );
  expect(errors).toEqual([]);
  await context.close();
});

it('plays on without the network: the worker is kept with the page', async () => {
  const context = await here.browser.newContext(SIZES.desk);
  const errors = errorsOf(context);
  const page = await context.newPage();
  await atTheOil(page);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.reload();
  await page.locator('[data-trials="2000"]').waitFor();
  await context.setOffline(true);
  await page.reload();
  await page.locator('[data-trials="2000"]').waitFor();
  await page.locator('.plan .figure').waitFor();
  expect(page.workers().length).toBe(1);
  expect(errors).toEqual([]);
  await context.close();
});
