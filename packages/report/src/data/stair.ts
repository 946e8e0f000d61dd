import {
  type Book,
  pressureDecimals,
  pressureStair,
  roundedToSum,
  type Stair,
  stairWords,
  wantedPressure,
} from '@fettle/book';
import { expanded, inUnit } from '@fettle/core';
import { type PressureStair, pressureStairSvg } from '@fettle/draw';
import { printableText } from '../printable.ts';
import { TEXT_WIDTH } from './maps.ts';
import type { Prediction, Row } from './prediction.ts';

/** Orders of repair are drawn by chance only where there are too many; the same book then gives the same page. */
const SEED = 1;

/** Treads as printed, the greatest first: they add up to the difference of the printed pressures. */
function printedTreads({ asNew, now, treads, doubted }: Stair, unit: string) {
  const decimals = pressureDecimals(unit);
  const printed = (pascals: number): number => Number(inUnit(pascals, unit).toFixed(decimals));
  const rounded = roundedToSum(
    treads.map(({ share }) => inUnit(share.value, unit)),
    printed(asNew) - printed(now),
    10 ** -decimals,
  );
  return treads
    .map((tread, i) => {
      const share = Number(rounded[i]!.toFixed(decimals));
      const U = inUnit(expanded(tread.share).U, unit);
      const band = doubted && share !== 0 && U > 0 ? ` ±${U.toFixed(decimals)}` : '';
      return { tread, share, words: `${signed(-share, decimals)}${band}` };
    })
    .sort((a, b) => b.tread.share.value - a.tread.share.value);
}

/** Nothing is nothing, of whichever sign. */
function signed(value: number, decimals: number): string {
  const figures = Math.abs(value).toFixed(decimals);
  if (Number(figures) === 0) return figures;
  return `${value > 0 ? '+' : '−'}${figures}`;
}

function chartOf(book: Book, row: Row, stair: Stair, unit: string): PressureStair {
  const decimals = pressureDecimals(unit);
  const figure = (name: string, pascals: number) => ({
    name,
    value: inUnit(pascals, unit),
    text: `${inUnit(pascals, unit).toFixed(decimals)} ${unit}`,
  });
  const least = wantedPressure(book.sheet, row.condition)?.lower;
  return {
    asNew: figure('as new', stair.asNew),
    now: figure('as measured', stair.now),
    ...(least !== undefined && { required: figure('the sheet wants at least', least) }),
    treads: printedTreads(stair, unit).map(({ tread, words }) => ({
      id: printableText(tread.repair),
      name: printableText(tread.repair),
      share: inUnit(tread.share.value, unit),
      text: words,
      alone: {
        value: inUnit(tread.with, unit),
        text: `alone ${inUnit(tread.with, unit).toFixed(decimals)}`,
      },
    })),
  };
}

const NO_STAIR = { unit: '', as_new: '', now: '', lost: '', treads: [], rests_on: '', alt: '', svg: '' };

/** How the loss of pressure at hot idle is shared among the repairs, beside what each brings alone. */
export function stairPages(book: Book, prediction: Prediction) {
  const idle = prediction.rows[0];
  if (!idle) return null;
  try {
    const stair = pressureStair(prediction.circuit, idle.condition, { seed: SEED });
    return { why_not: '', ...stairPage(book, idle, stair, prediction.unit) };
  } catch (error) {
    // Some of the repairs may leave a circuit without a balance, though as it is it has one.
    if (!(error instanceof RangeError)) throw error;
    return { why_not: `The loss cannot be shared out: ${error.message}`, ...NO_STAIR };
  }
}

function stairPage(book: Book, idle: Row, stair: Stair, unit: string) {
  const decimals = pressureDecimals(unit);
  const plain = (pascals: number): string => inUnit(pascals, unit).toFixed(decimals);
  const treads = printedTreads(stair, unit).map(({ tread, words }) => ({
    repair: tread.repair,
    share: words,
    alone: plain(tread.with),
    gain: signed(inUnit(tread.with - stair.now, unit), decimals),
    not_measured: !tread.measured,
  }));
  const alt = `Pressure stair from ${plain(stair.asNew)} ${unit} as new down to ${plain(stair.now)} ${unit} as measured: ${treads.map(({ repair, share }) => `${printableText(repair)} ${share}`).join('; ')}.`;
  return {
    unit,
    as_new: plain(stair.asNew),
    now: plain(stair.now),
    lost: signed(Number(plain(stair.now)) - Number(plain(stair.asNew)), decimals),
    treads,
    rests_on: stairWords.sharesWords(stair, unit).join(' '),
    alt,
    svg: pressureStairSvg(chartOf(book, idle, stair, unit), {
      title: 'Pressure stair',
      desc: alt,
      width: TEXT_WIDTH,
      profile: 'paper',
      paper: true,
    }),
  };
}
