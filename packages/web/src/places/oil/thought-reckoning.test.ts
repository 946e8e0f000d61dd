import { readFileSync } from 'node:fs';
import { asFittedNow, filledCircuit, foldedBook, gaugePressure, Reckoning, readSheet } from '@fettle/book';
import { CATALOGUE, exact } from '@fettle/core';
import { expect, it } from 'vitest';
import { ThoughtReckoning } from './thought-reckoning.ts';

const IDLE = { speed: (600 * 2 * Math.PI) / 60, temperature: 273.15 + 93 };
const LINNET = new URL('../../../../cli/demo/linnet/spec-sheet.json', import.meta.url);

/** The demo's sheet with nothing read: every clearance stands as new. */
function unread() {
  const sheet = readSheet(JSON.parse(readFileSync(LINNET, 'utf8')));
  if (!sheet.ok) throw new Error(sheet.issues[0]!.message);
  const book = foldedBook([], new Map(), readSheet);
  return {
    ...book,
    sheet: sheet.value,
    characteristics: new Map(sheet.value.characteristics.map((one) => [one.id, one])),
  };
}

it('puts a clearance tried wherever the sheet takes it from, and the circuit foretells the same by either way', () => {
  const book = unread();
  const values = { 'main-2.radial_clearance': 60e-6, 'pump.end_clearance': 120e-6 };
  const plainly = filledCircuit(book, new Reckoning(book, asFittedNow(book), CATALOGUE));
  const thought = filledCircuit(book, new ThoughtReckoning(book, asFittedNow(book), values));
  if (!plainly.ok || !thought.ok) throw new Error('no circuit');
  const measured = thought.value.parameters.filter((one) => one.measured);
  expect(measured.map(({ name }) => name).sort()).toEqual(Object.keys(values).sort());
  for (const { name, measured: q } of measured)
    expect(q!.value).toBeCloseTo(values[name as keyof typeof values], 12);
  const tried = gaugePressure(plainly.value, IDLE, { as: 'tried', repairs: [], values });
  const so = gaugePressure(thought.value, IDLE, { as: 'measured' });
  expect(so.value / tried.value).toBeCloseTo(1, 9);
  // Worse clearances than new cannot hold more.
  expect(so.value).toBeLessThan(gaugePressure(plainly.value, IDLE, { as: 'new' }).value);
  expect(exact(so.value).terms).toEqual(so.terms);
});
