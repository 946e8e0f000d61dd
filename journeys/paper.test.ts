import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { errorsOf, SIZES } from './support/chromium.ts';
import { served } from './support/served.ts';
import { LINNET } from './support/workshop.ts';

const here = served();
let page: Page;
let errors: string[];
const folder = mkdtempSync(join(tmpdir(), 'fettle-paper-'));
beforeAll(async () => {
  const context = await here.browser.newContext(SIZES.desk);
  errors = errorsOf(context);
  page = await context.newPage();
  await page.goto(`${here.shop.opened.address}#/${LINNET}/book`);
  await page.getByRole('link', { name: 'Build book, A4' }).waitFor();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const said = (program: string, ...args: readonly string[]): string =>
  execFileSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 26, stdio: ['ignore', 'pipe', 'pipe'] });

/** What the link of the page leads to, as a file. */
async function printed(link: string): Promise<string> {
  const href = await page.getByRole('link', { name: link }).getAttribute('href');
  const answer = await page.context().request.get(new URL(href!, page.url()).href);
  expect(answer.status()).toBe(200);
  expect(answer.headers()['content-type']).toBe('application/pdf');
  const file = join(folder, `${link}.pdf`);
  writeFileSync(file, await answer.body());
  return file;
}

/** Share of dots of a first page that are not paper, by its grey values. */
function inkOf(file: string): number {
  const root = join(folder, 'dots');
  said('pdftoppm', '-gray', '-r', '40', '-f', '1', '-l', '1', '-singlefile', file, root);
  const picture = readFileSync(`${root}.pgm`);
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(picture.toString('latin1', 0, 40))!;
  const dots = picture.subarray(head[0].length);
  expect(dots.length).toBe(Number(head[1]) * Number(head[2]));
  return dots.filter((grey) => grey < 128).length / dots.length;
}

/** `pdfinfo` says the size in points: A4 is 210 × 297 mm, Letter 8.5 × 11 in. */
const PAPERS = { A4: /595\.\d+ x 841\.\d+ pts/, Letter: /612 x 792 pts/ };

it.each([
  // The limit of crank end float as the sheet gives it, and what is still to be read of the runout.
  { name: 'Build book', paper: 'A4', limit: /0\.004\d* to 0\.012\d* in/, pages: /^Pages:\s+([2-9]|\d\d+)$/m },
  {
    name: 'Build book',
    paper: 'Letter',
    limit: /0\.004\d* to 0\.012\d* in/,
    pages: /^Pages:\s+([2-9]|\d\d+)$/m,
  },
  { name: 'Wall sheet', paper: 'A4', limit: /0\.0015\s*in/, pages: /^Pages:\s+\d+$/m },
  { name: 'Wall sheet', paper: 'Letter', limit: /0\.0015\s*in/, pages: /^Pages:\s+\d+$/m },
] as const)('prints the $name on $paper from its link on the page', async ({ name, paper, limit, pages }) => {
  const file = await printed(`${name}, ${paper}`);
  const info = said('pdfinfo', file);
  expect(info).toMatch(PAPERS[paper]);
  expect(info).toMatch(pages);
  const text = said('pdftotext', '-layout', file, '-');
  expect(text).toContain('Brackenhall Linnet 172');
  expect(text).toMatch(limit);
  expect(text).not.toMatch(/NaN|undefined|\[object/);
  const fonts = said('pdffonts', file).trim().split('\n').slice(2);
  expect(fonts.length).toBeGreaterThan(0);
  for (const font of fonts) {
    expect(font).toMatch(/^[A-Z]{6}\+Atkinson/);
    // The columns emb, sub and uni: in the file, cut to what is used, and readable as text.
    expect(font).toMatch(/\s(yes)\s+yes\s+yes\s+\d+\s+\d+\s*$/);
  }
  const ink = inkOf(file);
  expect(ink).toBeGreaterThan(0.001);
  expect(ink).toBeLessThan(0.5);
  expect(errors).toEqual([]);
});
