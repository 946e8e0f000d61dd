// The repair plan of the demo engine with twenty offers, twelve of them to do with the oil. Budget: 2 s.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  asFittedNow,
  assessment,
  contentHash,
  foldedBook,
  newEntryId,
  nextEntry,
  planningOf,
  readSheet,
  repairPlan,
} from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { compared } from './side-by-side.mjs';

const SHEET = new URL('../packages/cli/demo/linnet/spec-sheet.json', import.meta.url);
const FETTLE = fileURLToPath(new URL('../packages/cli/bin/fettle.js', import.meta.url));
const WISHES = { confidence: 0.95 };

function good(outcome) {
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join('\n'));
  return outcome.value;
}

/** The demo's ledger, entered by the command itself into a data directory that is gone afterwards. */
function demoEntries() {
  const data = mkdtempSync(join(tmpdir(), 'fettle-bench-'));
  const fettle = (...args) =>
    execFileSync(process.execPath, [FETTLE, ...args], {
      env: { ...process.env, FETTLE_DATA: data },
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
  try {
    fettle('new', '--demo', 'linnet');
    return JSON.parse(fettle('log', 'linnet', '--json')).map(({ struck, ...entry }) => entry);
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
}

const restored = (characteristic, more = {}) => ({ characteristic, judged_by: 'new', ...more });
const byWear = (characteristic, value, doubt, at) =>
  restored(characteristic, { value, doubt, judged_by: 'wear', ...(at && { at }) });

/** Six more that all touch the oil, invented. */
const MORE = [
  [
    'cover-lapped',
    35,
    [restored('pump.cover-groove'), byWear('pump.end-clearance', '0.0035 in', '0.0005 in')],
  ],
  ['rocker-shaft', 88, [restored('valve.rocker-clearance')]],
  ['rod-shells-standard', 60, [byWear('crank.rod-clearance', '0.0030 in', '0.0004 in')], ['crank-grind']],
  ['cam-bush-3', 48, [restored('cam.bush-clearance', { at: { bush: '3' } })]],
  ['relief-shim', 3, [restored('relief.load-at-1.560')]],
  ['thicker-oil', 12, [], [], 'sae40'],
];

function bookWithTwentyOffers() {
  const entries = demoEntries();
  MORE.forEach(([offer, price, restores, excludes = [], oil], i) => {
    const random = new Uint8Array(10);
    random[9] = i;
    const pen = {
      job: entries[0].job,
      device: 'bench',
      who: 'Sam',
      at: '2026-03-01T10:00:00Z',
      id: newEntryId(1_800_000_000_000, random),
    };
    const body = {
      offer,
      name: offer,
      price,
      restores,
      repairs: [],
      needs: [],
      excludes,
      trust: 'assumed',
      ...(oil && { oil }),
    };
    entries.push(nextEntry(entries, pen, 'repair-offered', body));
  });
  const sheet = good(readSheet(JSON.parse(readFileSync(SHEET, 'utf8'))));
  return foldedBook(entries, new Map([[contentHash(sheet), sheet]]), readSheet);
}

/**
 * Every subset, one after the other, and the pressures of each that keeps what offers need and exclude: the cheapest
 * that settles what is out, the cheapest with each offer and without it, and what money buys with verdicts and
 * without. Each state of the oil is solved once, as in the search.
 */
function bySubsets({ problem: { choices, requirements, oil, chance }, confidence }) {
  const chances = new Map();
  const cheapest = { all: undefined, with: [], without: [] };
  const surest = { settled: new Map(), free: new Map() };
  const cheaper = (one, other) => (other === undefined || one < other ? one : other);
  for (let taken = 0; taken < 1 << choices.length; taken++) {
    let price = 0;
    let fits = true;
    for (let i = 0; i < choices.length && fits; i++) {
      if (!(taken & (1 << i))) continue;
      price += choices[i].price;
      fits = (choices[i].needs & ~taken) === 0 && (choices[i].excludes & taken) === 0;
    }
    if (!fits) continue;
    const state = taken & oil;
    if (!chances.has(state)) chances.set(state, chance(state));
    const sure = chances.get(state);
    surest.free.set(price, Math.max(sure, surest.free.get(price) ?? 0));
    if (requirements.some((bits) => (bits & taken) === 0)) continue;
    surest.settled.set(price, Math.max(sure, surest.settled.get(price) ?? 0));
    if (sure < confidence) continue;
    cheapest.all = cheaper(price, cheapest.all);
    for (let i = 0; i < choices.length; i++) {
      const side = taken & (1 << i) ? cheapest.with : cheapest.without;
      side[i] = cheaper(price, side[i]);
    }
  }
  return { cheapest, rising: [surest.settled, surest.free].map(rising) };
}

/** Prices at which the chance rises. */
function rising(surest) {
  const points = [];
  for (const [price, chance] of [...surest].sort((a, b) => a[0] - b[0]))
    if (points.length === 0 || chance >= points.at(-1).chance + 0.001) points.push({ price, chance });
  return points;
}

export async function planning() {
  const book = bookWithTwentyOffers();
  const assessed = assessment(book, asFittedNow(book), CATALOGUE);
  const fresh = () => good(planningOf(book, assessed, WISHES));
  const { offers } = fresh();
  const plan = repairPlan(fresh());
  if (offers.length !== 20) throw new Error(`twenty offers were meant, ${offers.length} there are`);
  const plain = bySubsets(fresh());
  if (plan.best?.price !== plain.cheapest.all) throw new Error('the plan is not the cheapest');
  const last = [plan.frontier, plan.pressureOnly].map((points) => points.at(-1)?.price);
  if (plain.rising.some((points, i) => points.at(-1)?.price !== last[i]))
    throw new Error('the surest is not reached at the same price');
  await compared(
    `Repair plan, ${offers.length} offers (${plan.solved} states of the oil solved with their doubt)`,
    {
      'every subset in turn': () => bySubsets(fresh()),
      'the plan: cheapest, next, what was left out and why, both frontiers': () => repairPlan(fresh()),
    },
    { rounds: 5 },
  );
}
