import { mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import {
  closingLineSvg,
  costFrontierSvg,
  flowBarsSvg,
  type LeafLadder,
  leafLadderSvg,
  limitRailSvg,
  type MapCell,
  type Picture,
  pressureCurveSvg,
  repairBarsSvg,
  unrolledBoresSvg,
  verdictMarkSvg,
} from './index.ts';

const OWNED = [0.0015, 0.002, 0.0025, 0.003, 0.004, 0.005, 0.006, 0.007, 0.008, 0.009, 0.01];
const inch = (value: number, decimals = 4): string => value.toFixed(decimals).replace(/^0/, '');

const ladder = (tappable: boolean): LeafLadder => ({
  leaves: OWNED.map((thickness) => ({
    id: String(thickness),
    thickness,
    text: inch(thickness),
    state:
      thickness <= 0.0025 || thickness === 0.004
        ? 'goes'
        : thickness >= 0.006 && thickness <= 0.007
          ? 'not'
          : 'untried',
    next: thickness === 0.005,
  })),
  words: { goes: 'goes', not: 'does not go', untried: 'untried', next: 'try next', gap: 'gap' },
  tappable,
});

const bores = [
  [
    [3.5052, 3.5034],
    [3.503, 3.5022],
    [3.5012, 3.501],
  ],
  [
    [3.5058, 3.5036],
    [3.5036, 3.5024],
    [3.5014, 3.5011],
  ],
  [
    [3.5071, 3.5049],
    [3.5041, 3.503],
    [3.5013, undefined],
  ],
  [
    [3.5055, 3.5038],
    [3.5033, 3.5023],
    [3.5012, 3.5009],
  ],
];
const journals = [
  [
    [2.4982, 2.498],
    [2.498, 2.4981],
  ],
  [
    [2.4986, 2.4985],
    [2.4985, 2.4986],
  ],
  [
    [2.4979, 2.4976],
    [2.4977, 2.4976],
  ],
];

const cell = (value: number | undefined, nominal: number, worst: number): MapCell | undefined =>
  value === undefined
    ? undefined
    : { text: value.toFixed(4), deviation: value - nominal, worst: value === worst };

const hot = [600, 1000, 1500, 2000, 2500, 3000, 3600].map((speed) => {
  const value = 44 * (1 - Math.exp(-speed / 1900)) - 4;
  return { speed, value, low: value * 0.82, high: value * 1.18 };
});
const cold = [600, 1000, 1500, 2000, 2500, 3000, 3600].map((speed) => {
  const value = 46 * (1 - Math.exp(-speed / 420)) + speed / 900;
  return { speed, value, low: value - 4, high: value + 4 };
});

/** Every picture with figures such as a job has, by name. */
function gallery(picture: Picture): Record<string, string> {
  return {
    'rail-cannot-tell': limitRailSvg(
      {
        sets: [{ set: 'wear', name: 'taper, wear', upper: { at: 6, text: '.0060 in' } }],
        reading: { from: 5.7, to: 6.2, best: 5.95, text: '.0060 ± .0003 in' },
        witnesses: [
          { from: 5.1, to: 6.5, best: 5.8, name: 'telescoping gauge', text: '.0058 ± .0007' },
          { from: 5.7, to: 6.3, best: 6, name: 'dial bore gauge', text: '.0060 ± .0003' },
          { from: 5.5, to: 6.3, best: 5.9, name: 'ring gap, over π', text: '.0059 ± .0004' },
        ],
        next: 'No instrument owned decides this: it stays with the bore’s other verdicts.',
      },
      picture,
    ),
    'rail-two-sets': limitRailSvg(
      {
        sets: [
          {
            set: 'new',
            name: 'new',
            lower: { at: 1.5, text: '.0015' },
            upper: { at: 3.5, text: '.0035' },
            target: { at: 2.5, text: '.0025' },
          },
          { set: 'wear', name: 'wear', upper: { at: 4.5, text: '.0045' } },
        ],
        reading: { from: 4, to: 5, text: '.004 goes, .005 does not' },
        next: 'Measure the gear and the body: their diameters decide what the leaves cannot.',
      },
      picture,
    ),
    'rail-open-end': limitRailSvg(
      {
        sets: [
          { set: 'new', name: 'new', lower: { at: 4, text: '.004' }, upper: { at: 8, text: '.008' } },
          { set: 'wear', name: 'wear', lower: { at: 4, text: '.004' }, upper: { at: 12, text: '.012' } },
        ],
        reading: { from: 10, text: 'at least .010' },
        next: 'Try .012',
      },
      picture,
    ),
    'rail-empty': limitRailSvg(
      { sets: [{ set: 'wear', name: 'wear', lower: { at: 2.498, text: '2.4980 in' } }] },
      picture,
    ),
    ladder: leafLadderSvg(ladder(false), picture),
    'ladder-tappable': leafLadderSvg(ladder(true), picture),
    bores: unrolledBoresSvg(
      {
        rows: ['top', 'middle', 'bottom'],
        columns: ['thrust', 'axial'],
        strips: bores.map((cells, i) => ({
          name: `Bore ${i + 1}`,
          cells: cells.map((row) => row.map((value) => cell(value, 3.5, 3.5071))),
        })),
        steps: [
          { upTo: 0.001, text: 'new, to .0010' },
          { upTo: 0.003, text: 'to .0030' },
          { upTo: 0.005, text: 'to .0050' },
          { upTo: 0.0065, text: 'to .0065' },
          { upTo: 0.008, text: 'to .0080 and over' },
        ],
        worst: 'worst',
      },
      picture,
    ),
    journals: unrolledBoresSvg(
      {
        rows: ['front', 'rear'],
        columns: ['0°', '90°'],
        strips: journals.map((cells, i) => ({
          name: `Main ${i + 1}`,
          cells: cells.map((row) =>
            row.map((value) => ({
              ...cell(value, 2.5, 0)!,
              verdict:
                value! >= 2.4982
                  ? ('in' as const)
                  : value! >= 2.4978
                    ? ('cannot-tell' as const)
                    : ('out' as const),
              worst: value === 2.4976,
            })),
          ),
        })),
        steps: [
          { upTo: 0.001, text: 'new' },
          { upTo: 0.0015, text: '.0015 under' },
          { upTo: 0.002, text: '.0020 under' },
          { upTo: 0.0025, text: 'more' },
        ],
        worst: 'worst',
      },
      picture,
    ),
    pressure: pressureCurveSvg(
      {
        speedAxis: 'rpm',
        pressureAxis: 'psi',
        curves: [
          { name: 'cold', style: 'dashed', points: cold },
          { name: 'hot', style: 'solid', points: hot },
        ],
        limits: [
          { speed: 600, lower: 15, text: 'at least 15' },
          { speed: 2000, lower: 40, upper: 48, text: '40–48' },
        ],
        gauge: [
          { speed: 600, value: 38, half: 3, cold: true },
          { speed: 600, value: 7.5, half: 3 },
          { speed: 1000, value: 14, half: 3 },
          { speed: 2000, value: 31, half: 3 },
          { speed: 3000, value: 40, half: 3 },
        ],
        gaugeName: 'gauge, hot and cold, ± 3 psi',
      },
      picture,
    ),
    repairs: repairBarsSvg(
      {
        asMeasured: { name: 'as measured', value: 7.4, text: '7.4 psi', low: 6.1, high: 8.9 },
        repairs: [
          { name: 'new gears, pump cover lapped', value: 13.1, text: '13.1 psi', low: 10.9, high: 15.6 },
          { name: 'crank ground, new main shells', value: 11.8, text: '11.8 psi', low: 9.6, high: 14 },
          { name: 'rod shells', value: 8.2, text: '8.2 psi' },
          { name: 'cam bushes', value: 7.9, text: '7.9 psi' },
          { name: 'relief spring', value: 7.4, text: '7.4 psi' },
          { name: 'gears, cover and mains', value: 21.5, text: '21.5 psi', low: 18, high: 25 },
        ],
        asNew: { name: 'as new', value: 29.6, text: '29.6 psi' },
        required: { name: 'at least', value: 15, text: '15 psi' },
      },
      picture,
    ),
    flow: flowBarsSvg(
      {
        parts: [
          { name: 'pump, end clearance', value: 3.1, text: '3.10 L/min', share: '45 %' },
          { name: 'pump, radial clearance', value: 1.05, text: '1.05 L/min', share: '15 %' },
          { name: 'main bearings', value: 1.72, text: '1.72 L/min', share: '25 %' },
          { name: 'rod bearings', value: 0.46, text: '.46 L/min', share: '7 %' },
          { name: 'cam bushes', value: 0.31, text: '.31 L/min', share: '4 %' },
          { name: 'rockers, timing jet', value: 0.3, text: '.30 L/min', share: '4 %' },
          { name: 'relief valve', value: 0, text: 'shut', share: '0 %' },
        ],
        total: { name: 'pumped', text: '6.94 L/min' },
      },
      picture,
    ),
    closing: closingLineSvg(
      {
        covers: [
          {
            id: 'crank',
            name: 'crank in',
            hours: 6,
            hoursText: '6 h to reopen',
            state: 'held',
            stateText: 'HELD, 3 reasons',
            proven: 21,
            open: 4,
            out: 3,
          },
          {
            id: 'pistons',
            name: 'pistons',
            hours: 7,
            hoursText: '7 h to reopen',
            state: 'held',
            stateText: 'HELD, 1 reason',
            proven: 14,
            open: 9,
            out: 0,
          },
          {
            id: 'timing',
            name: 'timing cover',
            hours: 4,
            hoursText: '4 h to reopen',
            state: 'open',
            stateText: 'may be closed',
            proven: 7,
            open: 0,
            out: 0,
          },
          {
            id: 'pan',
            name: 'pan',
            hours: 5,
            hoursText: '5 h to reopen',
            state: 'passed',
            stateText: 'hold passed',
            proven: 11,
            open: 1,
            out: 1,
          },
          {
            id: 'head',
            name: 'head',
            hours: 6,
            hoursText: '6 h to reopen',
            state: 'closed',
            stateText: 'closed',
            proven: 16,
            open: 0,
            out: 0,
          },
          {
            id: 'van',
            name: 'engine in the van',
            hours: 14,
            hoursText: '14 h to reopen',
            state: 'held',
            stateText: 'HELD, 2 reasons',
            proven: 2,
            open: 62,
            out: 0,
          },
        ],
        words: { proven: 'proven', open: 'open', out: 'out' },
      },
      picture,
    ),
    frontier: costFrontierSvg(
      {
        priceAxis: 'price',
        chanceAxis: 'chance of every pressure, %',
        points: [
          { price: 1493, chance: 0.93, name: '1' },
          { price: 1627, chance: 0.983, name: '2', best: true },
        ],
        beside: [
          { price: 0, chance: 0, name: 'a' },
          { price: 491, chance: 0.71, name: 'b' },
          { price: 517, chance: 0.87, name: 'c' },
          { price: 654, chance: 0.93, name: 'd' },
          { price: 788, chance: 0.983, name: 'e' },
        ],
        wanted: { chance: 0.95, text: 'wanted: 95 %' },
        cap: { price: 2400, text: 'cap 2400' },
      },
      picture,
    ),
    in: verdictMarkSvg('in', { ...picture, width: picture.width / 8 }),
    out: verdictMarkSvg('out', { ...picture, width: picture.width / 8 }),
    'cannot-tell': verdictMarkSvg('cannot-tell', { ...picture, width: picture.width / 8 }),
    'not-read': verdictMarkSvg('not-read', { ...picture, width: picture.width / 8 }),
  };
}

const PICTURES = {
  phone: { width: 358, profile: 'phone' },
  tablet: { width: 820, profile: 'tablet' },
  desk: { width: 1000, profile: 'desk' },
  paper: { width: 480, profile: 'paper', paper: true },
} as const;

for (const [name, size] of Object.entries(PICTURES)) {
  it(`draws every picture for ${name} from figures such as a job has, and lays it out for a look`, () => {
    const folder = join(tmpdir(), 'draw-gallery', name);
    mkdirSync(folder, { recursive: true });
    const drawn = gallery({ title: 'Demo', desc: 'Drawn for a look.', ...size });
    for (const [title, text] of Object.entries(drawn)) {
      expect(text, title).not.toMatch(/NaN|Infinity|undefined|\[object/);
      expect(text, title).toMatch(/^<svg [^>]*viewBox="0 0 [\d.]+ [\d.]+"[^>]*role="(img|group)"/);
      writeFileSync(join(folder, `${title}.svg`), text);
    }
  });
}
