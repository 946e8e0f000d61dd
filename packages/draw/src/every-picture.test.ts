import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  circuitDrawingSvg,
  closingLineSvg,
  costFrontierSvg,
  faceMapSvg,
  flowBarsSvg,
  grooveRingSvg,
  leafLadderSvg,
  limitRailSvg,
  type Picture,
  pressureCurveSvg,
  pressureMapSvg,
  pressureStairSvg,
  repairBarsSvg,
  springLineSvg,
  timeLineSvg,
  unrolledBoresSvg,
  verdictMarkSvg,
} from './index.ts';

const DESK: Picture = { title: 'A picture', desc: 'What it says.', width: 800, profile: 'desk' };
const attribute = (text: string, name: string): string[] =>
  [...text.matchAll(new RegExp(` ${name}="([^"]*)"`, 'g'))].map(([, value]) => value!);

const NASTY = `<script>alert("1")</script> & 'two' \u0000 µ`;

/** Every picture with a given word wherever the caller may put one. */
const worded = (word: string, picture: Picture): string[] => [
  limitRailSvg(
    {
      sets: [{ set: 'new', name: word, upper: { at: 1, text: word } }],
      reading: { from: 0, to: 2, text: word },
      witnesses: [{ from: 0, text: word, name: word }],
      next: word,
    },
    picture,
  ),
  leafLadderSvg(
    {
      leaves: [{ id: word, thickness: 1, text: word, state: 'goes' }],
      words: { goes: word, not: word, untried: word, next: word, gap: word },
      tappable: true,
    },
    picture,
  ),
  unrolledBoresSvg(
    {
      rows: [word],
      columns: [word],
      strips: [{ name: word, cells: [[{ text: word, deviation: 1, worst: true, verdict: 'in' }]] }],
      steps: [{ upTo: 1, text: word }],
      worst: word,
    },
    picture,
  ),
  pressureCurveSvg(
    {
      speedAxis: word,
      pressureAxis: word,
      curves: [{ name: word, style: 'solid', points: [{ speed: 1, value: 1 }] }],
      limits: [{ speed: 1, lower: 1, text: word }],
      gauge: [{ speed: 1, value: 1 }],
      gaugeName: word,
    },
    picture,
  ),
  repairBarsSvg({ asMeasured: { name: word, value: 1, text: word }, repairs: [] }, picture),
  flowBarsSvg(
    { parts: [{ name: word, value: 1, text: word, share: word }], total: { name: word, text: word } },
    picture,
  ),
  closingLineSvg(
    {
      covers: [
        {
          id: word,
          name: word,
          hours: 1,
          hoursText: word,
          state: 'held',
          stateText: word,
          proven: 1,
          open: 1,
          out: 1,
        },
      ],
      words: { proven: word, open: word, out: word },
    },
    picture,
  ),
  costFrontierSvg(
    {
      priceAxis: word,
      chanceAxis: word,
      points: [{ price: 1, chance: 0.9, name: word, best: true }],
      beside: [{ price: 0, chance: 0.1, name: word }],
      wanted: { chance: 0.95, text: word },
      cap: { price: 2, text: word },
    },
    picture,
  ),
  timeLineSvg(
    {
      unit: { days: 7, name: word },
      rows: [{ name: word, start: 0, finish: 7, latest: 14, slack: 3, critical: true, text: word }],
      due: { days: 21, text: word },
      end: { early: 7, middle: 9, late: 14, text: word },
    },
    picture,
  ),
  pressureStairSvg(
    {
      asNew: { name: word, value: 3, text: word },
      now: { name: word, value: 1, text: word },
      required: { name: word, value: 2, text: word },
      treads: [
        { id: word, name: word, share: 2, text: word, alone: { value: 2, text: word } },
        { id: word, name: word, share: 0, text: word, lifted: true, carried: 1 },
      ],
      tappable: true,
    },
    picture,
  ),
  pressureMapSvg(
    {
      speedAxis: word,
      temperatureAxis: word,
      pressureUnit: word,
      speeds: [600, 3000],
      temperatures: [20, 90],
      pressures: [30, 40, 10, 35],
      limits: [{ speed: 600, temperature: 90, mark: 'out', text: word }],
    },
    picture,
  ),
  circuitDrawingSvg(
    {
      sump: word,
      nodes: [{ id: 'a', name: word, text: word, gauge: true }],
      lines: [
        { name: word, to: 'a', flow: 2, text: word },
        { name: word, from: 'a', flow: 2, text: word, share: word },
      ],
    },
    picture,
  ),
  faceMapSvg(
    {
      spots: [
        { name: word, x: 0, y: 0, above: 0, text: word, holds: 'low' },
        { name: word, x: 1, y: 0, above: 1, text: word, holds: 'high' },
        { name: word, x: 0, y: 1 },
      ],
      zone: 1,
      steps: [word, word],
      words: { high: word, low: word, missing: word },
    },
    picture,
  ),
  grooveRingSvg(
    {
      points: [{ name: word, value: 1, text: word, worst: true }, { name: word }],
      rings: [{ value: 0.5, text: word, dash: 'long' }],
    },
    picture,
  ),
  springLineSvg(
    {
      lengthAxis: word,
      loadAxis: word,
      wanted: [{ at: 1, lower: 1, upper: 2, text: word }],
      read: [{ at: 1, load: 3, text: word }],
      lengths: [{ at: 2, text: word, measured: true }],
      words: { wanted: word, read: word },
    },
    picture,
  ),
  verdictMarkSvg('in', picture),
];

/** Whether every element that opens also closes, in order. */
function isBalanced(text: string): boolean {
  const open: string[] = [];
  for (const [, end, name, , self] of text.matchAll(/<(\/?)([a-z]+)((?:[^>"]|"[^"]*")*?)(\/?)>/g)) {
    if (end === '/') {
      if (open.pop() !== name) return false;
    } else if (self !== '/') open.push(name!);
  }
  return open.length === 0;
}

it('escapes whatever the caller says, wherever it goes', () => {
  for (const drawn of worded(NASTY, { ...DESK, title: NASTY, desc: NASTY, font: `a" onload="b` })) {
    expect(drawn).not.toContain('<script');
    expect(drawn).not.toContain('\u0000');
    expect(drawn).not.toContain('\u00b5');
    expect(drawn).not.toMatch(/ onload="/);
    expect(drawn).toContain('\u03bc');
    expect(isBalanced(drawn)).toBe(true);
  }
});

it('stays well formed for any words', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (word) => {
      for (const drawn of worded(word, { ...DESK, title: word })) expect(isBalanced(drawn)).toBe(true);
    }),
  );
});

it('names itself by title and description before anything else is drawn', () => {
  for (const drawn of worded('word', DESK))
    expect(drawn).toMatch(
      /^<svg [^>]*role="(img|group)"[^>]*><title>A picture<\/title><desc>What it says\.<\/desc>/,
    );
});

it('gives the same text for the same input', () => {
  expect(worded('word', DESK)).toEqual(worded('word', DESK));
});

it('uses only the page’s inks on screen, and only greys on paper', () => {
  const colours = (drawn: string): string[] => [...attribute(drawn, 'fill'), ...attribute(drawn, 'stroke')];
  for (const drawn of worded('word', DESK))
    for (const colour of colours(drawn))
      expect(colour).toMatch(/^(none|transparent|var\(--[a-z-]+, #\w+\))$/);
  for (const drawn of worded('word', { ...DESK, paper: true }))
    for (const colour of colours(drawn)) expect(colour).toMatch(/^(none|transparent|#(\w\w)\2\2)$/);
});

it('carries no script, style, id or link', () => {
  for (const drawn of worded('word', DESK))
    expect(drawn).not.toMatch(/<style|<script|<a |<image| (style|id|href|on\w+)=/);
});

it('draws nothing rather than fail where there is nothing to draw', () => {
  const empty = [
    limitRailSvg({ sets: [] }, DESK),
    leafLadderSvg({ leaves: [], words: { goes: '', not: '', untried: '', next: '' } }, DESK),
    unrolledBoresSvg({ rows: [], columns: [], strips: [] }, DESK),
    pressureCurveSvg({ speedAxis: 'rpm', pressureAxis: 'psi', curves: [] }, DESK),
    repairBarsSvg({ asMeasured: { name: '', value: Number.NaN, text: 'none' }, repairs: [] }, DESK),
    flowBarsSvg({ parts: [] }, DESK),
    pressureStairSvg(
      {
        asNew: { name: '', value: Number.NaN, text: '' },
        now: { name: '', value: Number.NaN, text: '' },
        required: { name: '', value: Number.POSITIVE_INFINITY, text: '' },
        treads: [{ id: '', name: '', share: Number.NaN, text: '', alone: { value: Number.NaN, text: '' } }],
      },
      DESK,
    ),
    pressureMapSvg(
      {
        speedAxis: '',
        temperatureAxis: '',
        pressureUnit: '',
        speeds: [1, 2],
        temperatures: [1, 2],
        pressures: [Number.NaN, 1, 2, 3],
        limits: [{ speed: Number.NaN, temperature: 1, mark: 'in', text: '' }],
      },
      DESK,
    ),
    pressureMapSvg(
      { speedAxis: '', temperatureAxis: '', pressureUnit: '', speeds: [], temperatures: [], pressures: [] },
      DESK,
    ),
    circuitDrawingSvg({ nodes: [], lines: [], sump: '' }, DESK),
    circuitDrawingSvg(
      {
        sump: '',
        nodes: [{ id: 'a', name: '', text: '' }],
        lines: [{ name: '', from: 'a', flow: Number.NaN, text: '' }],
      },
      DESK,
    ),
    closingLineSvg({ covers: [], words: { proven: '', open: '', out: '' } }, DESK),
    costFrontierSvg({ priceAxis: '', chanceAxis: '', points: [] }, DESK),
    verdictMarkSvg('in', { ...DESK, width: Number.NaN }),
  ];
  for (const drawn of empty) {
    expect(drawn).not.toMatch(/NaN|Infinity|undefined/);
    expect(isBalanced(drawn)).toBe(true);
  }
});
