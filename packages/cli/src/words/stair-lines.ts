import {
  type Book,
  type FilledCircuit,
  gaugePressure,
  pressureDecimals,
  pressureStair,
  pressureUnit,
  pressureVerdict,
  pressureWords,
  roundedToSum,
  type Stair,
  stairWords,
  wantedPressure,
} from '@fettle/book';
import { expanded, inUnit, standardUncertainty } from '@fettle/core';
import { type PressureStair, pressureStairText } from '@fettle/draw';
import { STATUS_WORDS } from './judgement.ts';
import type { Condition } from './oil-lines.ts';
import { heading, wrapped } from './table.ts';

/** The stair as it is, and as it was before anything was lifted. */
export interface StairSection {
  readonly condition: Condition;
  readonly lifted: readonly string[];
  readonly whole: Stair;
  readonly now: Stair;
}

/** @throws RangeError  when the network finds no balance */
export function stairSection(
  circuit: FilledCircuit,
  condition: Condition,
  lifted: readonly string[],
  seed: number,
): StairSection {
  const whole = pressureStair(circuit, condition, { seed });
  const now = lifted.length > 0 ? pressureStair(circuit, condition, { seed, lifted }) : whole;
  return { condition, lifted, whole, now };
}

/** Treads as printed, the greatest first; they add up to the difference of the printed pressures. */
function printedTreads({ whole, now }: StairSection, unit: string) {
  const decimals = pressureDecimals(unit);
  const step = 10 ** -decimals;
  const printed = (pascals: number): number => Number(inUnit(pascals, unit).toFixed(decimals));
  const shares = now.treads.map(({ share }) => inUnit(share.value, unit));
  const rounded = roundedToSum(shares, printed(now.asNew) - printed(now.now), step);
  return now.treads
    .map((tread, i) => {
      const U = inUnit(expanded(tread.share).U, unit);
      const share = rounded[i]!.toFixed(decimals);
      // Nothing is nothing, of whichever sign.
      const nothing = Number(share) === 0;
      return {
        tread,
        carried: whole.treads[i]!.share.value,
        share: nothing ? (0).toFixed(decimals) : share,
        band: now.doubted && !nothing && U > 0 ? ` ±${U.toFixed(decimals)}` : '',
      };
    })
    .sort((a, b) => b.carried - a.carried);
}

/** A loss with its sign; what does better than new, with the other. */
function treadText(lifted: boolean, share: string, band: string): string {
  if (Number(share) === 0) return lifted ? 'lifted' : share;
  return share.startsWith('-') ? `+${share.slice(1)}${band}` : `−${share}${band}`;
}

function chartOf(book: Book, section: StairSection, unit: string): PressureStair {
  const { now, condition, lifted } = section;
  const decimals = pressureDecimals(unit);
  const figure = (name: string, pascals: number) => ({
    name,
    value: inUnit(pascals, unit),
    text: `${inUnit(pascals, unit).toFixed(decimals)} ${unit}`,
  });
  const least = wantedPressure(book.sheet, condition)?.lower;
  return {
    asNew: figure('as new', now.asNew),
    now: figure(lifted.length > 0 ? `${lifted.length} lifted` : 'as measured', now.now),
    ...(least !== undefined && { required: figure('the sheet wants at least', least) }),
    treads: printedTreads(section, unit).map(({ tread, carried, share, band }) => ({
      id: tread.repair,
      name: tread.repair,
      share: inUnit(tread.share.value, unit),
      text: treadText(tread.lifted, share, band),
      lifted: tread.lifted,
      carried: inUnit(carried, unit),
      ...(!tread.lifted && {
        alone: {
          value: inUnit(tread.with, unit),
          text: `${lifted.length > 0 ? 'this too' : 'alone'} ${inUnit(tread.with, unit).toFixed(decimals)}`,
        },
      }),
    })),
  };
}

export function stairLines(book: Book, circuit: FilledCircuit, section: StairSection): string[] {
  const { condition, now, lifted } = section;
  const unit = pressureUnit(book);
  const at = `${condition.speedWords} and ${condition.words}`;
  return [
    ...heading(
      `Pressure stair at ${at}, from as new down to ${lifted.length > 0 ? 'what is left' : 'as measured'}`,
    ),
    ...pressureStairText(chartOf(book, section, unit)).map((line) => `  ${line}`),
    '',
    ...paragraphs([
      lostWords(section, unit),
      ...liftedWords(book, circuit, section, unit),
      aloneWords(section, unit),
      ...now.treads
        .filter(({ measured }) => !measured)
        .map(({ repair }) => `${repair}: not measured, taken as new; it carries nothing here.`),
      [FORMULA, ...stairWords.sharesWords(now, unit)].join(' '),
      'Discharge coefficients, eccentricities, film temperatures and leak paths of the circuit are assumed, and the stair rests on them: they carry no band.',
    ]),
  ];
}

const paragraphs = (texts: readonly string[]): string[] =>
  texts.flatMap((text) => wrapped(text, 104, '  ').map((line, i) => (i === 0 ? `  ${line}` : line)));

/** Under this share of the loss a tread is not spoken of. */
const SPOKEN = 0.005;

function lostWords(section: StairSection, unit: string): string {
  const { now } = section;
  const decimals = pressureDecimals(unit);
  const printed = (pascals: number): number => Number(inUnit(pascals, unit).toFixed(decimals));
  const lost = printed(now.asNew) - printed(now.now);
  const whole = now.asNew - now.now;
  const carry = printedTreads(section, unit)
    .filter(({ tread }) => Math.abs(tread.share.value) > SPOKEN * Math.abs(whole))
    .map(({ tread, share, band }) => `${tread.repair} ${share}${band}`);
  if (carry.length === 0) return `Nothing is lost: the pressure is that as new.`;
  return `Of the ${lost.toFixed(decimals)} ${unit} ${section.lifted.length > 0 ? 'still ' : ''}lost, these carry by fair share over every order of repair: ${carry.join('; ')}.`;
}

function liftedWords(book: Book, circuit: FilledCircuit, section: StairSection, unit: string): string[] {
  const { lifted, condition, now } = section;
  if (lifted.length === 0) return [];
  const pressure = gaugePressure(circuit, condition, { as: 'repaired', repairs: lifted });
  const wanted = wantedPressure(book.sheet, condition);
  const verdict = wanted && pressureVerdict(wanted, pressure);
  const more = inUnit(now.now - now.asFound, unit).toFixed(pressureDecimals(unit));
  const judged =
    verdict && wanted.lower !== undefined
      ? ` The sheet wants at least ${wanted.printed.lower}: ${STATUS_WORDS[verdict]}.`
      : '';
  return [
    `Repaired in thought: ${lifted.join('; ')}. The gauge would show ${pressureWords(pressure, unit)}, ${more} more than as measured.${judged}`,
  ];
}

function aloneWords(section: StairSection, unit: string): string {
  const greatest = printedTreads(section, unit).find(({ tread }) => !tread.lifted);
  if (!greatest) return 'Every tread is lifted.';
  const { tread, share } = greatest;
  const [from, to] = [section.now.now, tread.with].map((p) =>
    inUnit(p, unit).toFixed(pressureDecimals(unit)),
  );
  const takes = `${tread.repair}, which carries ${share}, takes the gauge from ${from} to ${to}`;
  return tread.with - section.now.now < tread.share.value
    ? `A repair by itself brings less than its share, because the oil one leak no longer takes feeds the others: ${takes}.`
    : `By itself ${takes}.`;
}

const FORMULA =
  'Fair share (Shapley 1953): the sum, over all sets S of the other repairs, of |S|! (n − |S| − 1)! / n! times what the repair adds to the pressure after S.';

/** The same figures for programs, in SI. */
export function stairJson({ condition, now, lifted, whole }: StairSection) {
  return {
    speed: condition.speed,
    temperature: condition.temperature,
    as_new: now.asNew,
    as_measured: now.asFound,
    now: now.now,
    lifted,
    exact: now.exact,
    orders: now.orders,
    treads: now.treads.map((tread, i) => ({
      repair: tread.repair,
      share: tread.share.value,
      standard_uncertainty: now.doubted ? standardUncertainty(tread.share) : undefined,
      standard_error: tread.error,
      share_before_lifting: whole.treads[i]!.share.value,
      with_this_repair_too: tread.with,
      gain: tread.with - now.now,
      lifted: tread.lifted,
      measured: tread.measured,
    })),
  };
}
