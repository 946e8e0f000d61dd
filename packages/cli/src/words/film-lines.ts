import {
  type BearingFilm,
  type Book,
  FILM_GROUNDS,
  type FilledCrank,
  type FilmPrediction,
  type LoadFigure,
} from '@fettle/book';
import { type Caution, type Issue, inUnit, printQuantity, TYPICAL_CYCLE } from '@fettle/core';
import type { Condition } from './oil-lines.ts';
import { pressureUnit } from './pressure.ts';
import { heading, table, wrapped } from './table.ts';

const WIDTH = 108;

/** Films at one condition, and how hard the engine works there. */
export interface FilmRow {
  readonly condition: Condition;
  /** Share of a full charge. */
  readonly load: number;
  readonly prediction: FilmPrediction;
}

export interface Films {
  readonly book: Book;
  /** An issue: why there are no loads. */
  readonly crank: FilledCrank | Issue;
  readonly rows: readonly FilmRow[];
  readonly asFound: boolean;
  readonly grade: string | undefined;
}

interface Units {
  readonly pressure: string;
  readonly force: string;
  readonly gap: string;
  readonly gapDecimals: number;
  readonly length: string;
}

const unitsOf = (book: Book): Units => {
  const pressure = pressureUnit(book);
  return pressure === 'psi'
    ? { pressure, force: 'lbf', gap: 'thou', gapDecimals: 3, length: 'in' }
    : { pressure, force: 'N', gap: 'um', gapDecimals: 1, length: 'mm' };
};

const degrees = (angle: number): string => printQuantity(angle, 'deg', 0);
const kelvins = (rise: number): string => `${rise.toFixed(1)} K`;
const hasCylinders = (crank: FilledCrank | Issue): crank is FilledCrank => 'cylinders' in crank;

/** Loads, temperatures and least films of the bearings, for a person. */
export function filmLines(films: Films): string[] {
  const { book, rows, crank, asFound } = films;
  const grade = films.grade ?? book.sheet?.oil?.fill ?? '';
  const units = unitsOf(book);
  return [
    `Loads and films of the bearings, ${book.sheet?.oil?.grades[grade]?.name ?? grade}${asFound ? ', engine as found' : ''}`,
    ...rows.flatMap((row) => conditionLines(row, units)),
    ...heading('What the loads rest on'),
    ...(hasCylinders(crank)
      ? [...figureLines(crank, units), ...paragraph(cycleWords)]
      : paragraph(crank.message)),
    ...heading('What the films rest on'),
    ...FILM_GROUNDS.slice(0, 2).flatMap(paragraph),
    ...heading('Caution'),
    ...cautionsOf(rows).flatMap(({ message }) => paragraph(message)),
    ...FILM_GROUNDS.slice(2).flatMap(paragraph),
  ];
}

const paragraph = (text: string): string[] => wrapped(text, WIDTH, '  ').map((line) => `  ${line}`);

const { heat, chargeTemperature, exponent, burnStarts, burnLasts } = TYPICAL_CYCLE;
const cycleWords =
  `The cycle is a stated one: inlet at the charge’s pressure, compression and expansion with exponent ${exponent}, ` +
  `heat released along Wiebe’s curve from ${degrees(burnStarts)} before the top over ${degrees(burnLasts)}, ` +
  `${(heat / 1e6).toFixed(1)} MJ for each kg of charge at ${printQuantity(chargeTemperature, 'degC', 0)}, exhaust at the pressure outside. ` +
  'None of this was measured here: it is typical of a petrol engine, assumed.';

const cautionsOf = (rows: readonly FilmRow[]): Caution[] => [
  ...new Map(
    rows.flatMap(({ prediction }) => prediction.cautions.map((one) => [one.message, one] as const)),
  ).values(),
];

function conditionLines({ condition, load, prediction }: FilmRow, units: Units): string[] {
  const { films, gauge, loads, unsettled } = prediction;
  const pressure = (value: number): string => printQuantity(value, units.pressure, 1);
  const charge = loads
    ? `, charge at ${load.toFixed(2)} of the air outside: ${printQuantity(loads.peakPressure, 'bar', 0)} at the peak, ${printQuantity(loads.meanPressure, 'bar', 1)} mean`
    : '';
  return [
    ...heading(`${condition.speedWords}, sump ${condition.words}${charge}`),
    ...table(
      [
        loads
          ? ['', 'load, mean', 'greatest', 'at', 'off centre', 'film over sump', 'least film', 'at']
          : ['', 'off centre', 'film over sump'],
        ...films.map((film) => filmCells(film, units, loads !== undefined)),
      ],
      '  ',
    ),
    ...(unsettled ? paragraph(`FILM TEMPERATURES NOT FOUND: ${unsettled.message}`) : []),
    `  At the gauge ${pressure(gauge.assumed)} with the film temperatures and eccentricities the circuit assumes${gauge.computed === undefined ? '.' : `, ${pressure(gauge.computed)} with those computed here.`}`,
  ];
}

function filmCells(film: BearingFilm, units: Units, loaded: boolean): string[] {
  const { load, orbit, computed, assumed } = film;
  const force = (newtons: number): string => printQuantity(newtons, units.force, 0);
  const eccentricity = `${Number.isNaN(assumed.eccentricity) ? '' : `${assumed.eccentricity.toFixed(2)} → `}${computed?.eccentricity.toFixed(2) ?? '?'}`;
  const warm = `${kelvins(assumed.rise)} → ${computed ? `${computed.carried ? '' : 'over '}${kelvins(computed.rise)}` : '?'}`;
  const name = `${film.element}${film.measured ? '' : ' (not measured)'}`;
  if (!loaded) return [name, eccentricity, warm];
  return [
    name,
    load ? force(load.mean) : 'not known',
    load ? force(load.greatest) : '',
    load ? degrees(load.greatestAt) : '',
    eccentricity,
    warm,
    orbit
      ? `${inUnit(orbit.leastFilm, units.gap).toFixed(units.gapDecimals)} ${units.gap === 'um' ? 'µm' : `${units.gap} (${(orbit.leastFilm * 1e6).toFixed(1)} µm)`}${orbit.settled ? '' : ' ?'}`
      : '',
    orbit ? degrees(orbit.leastAt * 4 * Math.PI) : '',
  ];
}

const NAMES: Readonly<Record<LoadFigure['figure'], string>> = {
  bore: 'bore',
  stroke: 'stroke',
  rod: 'rod, between centres',
  compression_ratio: 'compression ratio',
  piston_mass: 'piston, rings and pin',
  rod_mass: 'rod, whole',
  rod_big_end_mass: 'rod, big end',
  throw_mass: 'throw out of balance',
  inlet_shuts: 'inlet shuts, after bottom',
  exhaust_opens: 'exhaust opens, before bottom',
};

function figureWords({ kind, value }: LoadFigure, units: Units): string {
  if (kind === 'length') return printQuantity(value, units.length, units.length === 'in' ? 3 : 2);
  if (kind === 'mass') return printQuantity(value, 'g', 1);
  if (kind === 'angle') return degrees(value);
  return String(Number(value.toPrecision(4)));
}

/** Each figure once where all cylinders share it, else one after the other. */
function figureLines({ cylinders }: FilledCrank, units: Units): string[] {
  const rows = (Object.keys(NAMES) as LoadFigure['figure'][]).map((key) => {
    const all = cylinders.map(({ figures }) => figures[key]);
    const words = [...new Set(all.map((one) => figureWords(one, units)))];
    const from = [
      ...new Set(
        all.map(({ from: origin, basis }) =>
          origin === 'measured'
            ? 'measured'
            : origin === 'sheet'
              ? `the sheet’s${basis ? ` (${basis})` : ''}`
              : 'not known: STANDS IN',
        ),
      ),
    ];
    const each = words.length > 1 ? all.map((one) => figureWords(one, units)) : words;
    return [NAMES[key], each.join(', '), from.join('; ')];
  });
  const standing = Object.values(cylinders[0]!.figures).filter(({ from }) => from === 'assumed');
  return [
    ...table(rows, '  '),
    ...standing.flatMap(({ figure, basis }) => paragraph(`Stands in for ${NAMES[figure]}: ${basis}.`)),
    '  Angles of loads and films: for a rod after the top dead centre at which its own cylinder fires, for a main after',
    '  that of the cylinder that fires at 0°.',
  ];
}

/** The same for programs, in SI. */
export function filmJson({ book, crank, rows }: Films) {
  return {
    job: book.job,
    conditions: rows.map(({ condition, load, prediction }) => ({
      speed: condition.speed,
      temperature: condition.temperature,
      load,
      peak_pressure: prediction.loads?.peakPressure,
      mean_pressure: prediction.loads?.meanPressure,
      gauge: { assumed: prediction.gauge.assumed, computed: prediction.gauge.computed },
      unsettled: prediction.unsettled,
      bearings: prediction.films.map(
        ({ element, load: on, clearance, measured, assumed, computed, orbit }) => ({
          bearing: element,
          kind: on?.bearing,
          radial_clearance: clearance,
          measured,
          load: on && { mean: on.mean, greatest: on.greatest, greatest_at: on.greatestAt },
          assumed: {
            film_rise: assumed.rise,
            eccentricity_ratio: Number.isNaN(assumed.eccentricity) ? undefined : assumed.eccentricity,
          },
          computed: computed && {
            film_rise: computed.rise,
            eccentricity_ratio: computed.eccentricity,
            dynamic_viscosity: computed.viscosity,
            power_loss: computed.power,
            feed: computed.flow,
            drawn: computed.drawn,
            heat_carried: computed.carried,
          },
          least_film: orbit && {
            value: orbit.leastFilm,
            at: orbit.leastAt * 4 * Math.PI,
            settled: orbit.settled,
          },
        }),
      ),
      cautions: prediction.cautions,
    })),
    ...(hasCylinders(crank)
      ? {
          crank: crank.cylinders.map(({ name, rod, mains, figures }) => ({
            cylinder: name,
            rod,
            mains,
            figures: Object.values(figures).map(({ figure, value, from, basis, entries }) => ({
              figure,
              value,
              from,
              basis,
              entries,
            })),
          })),
        }
      : { no_loads: crank }),
  };
}
