import { type Book, type FilledCrank, type FilmPrediction, filmWords, pressureUnit } from '@fettle/book';
import { type Caution, type Issue, printQuantity, standardUncertainty } from '@fettle/core';
import type { Condition } from './oil-lines.ts';
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

type Units = filmWords.FilmUnits;
const { FILM_GROUNDS } = filmWords;

const hasCylinders = (crank: FilledCrank | Issue): crank is FilledCrank => 'cylinders' in crank;

/** Loads, temperatures and least films of the bearings, for a person. */
export function filmLines(films: Films): string[] {
  const { book, rows, crank, asFound } = films;
  const grade = films.grade ?? book.sheet?.oil?.fill ?? '';
  const units = filmWords.filmUnits(pressureUnit(book));
  return [
    `Loads and films of the bearings, ${book.sheet?.oil?.grades[grade]?.name ?? grade}${asFound ? ', engine as found' : ''}`,
    ...rows.flatMap((row) => conditionLines(row, units)),
    ...heading('What the loads rest on'),
    ...(hasCylinders(crank)
      ? [...figureLines(crank, units), ...paragraph(filmWords.CYCLE_WORDS)]
      : paragraph(crank.message)),
    ...heading('What the films rest on'),
    ...FILM_GROUNDS.slice(0, 2).flatMap(paragraph),
    ...heading('Caution'),
    ...cautionsOf(rows).flatMap(({ message }) => paragraph(message)),
    ...FILM_GROUNDS.slice(2).flatMap(paragraph),
  ];
}

const paragraph = (text: string): string[] => wrapped(text, WIDTH, '  ').map((line) => `  ${line}`);

const cautionsOf = (rows: readonly FilmRow[]): Caution[] => [
  ...new Map(
    rows.flatMap(({ prediction }) => prediction.cautions.map((one) => [one.message, one] as const)),
  ).values(),
];

function conditionLines({ condition, load, prediction }: FilmRow, units: Units): string[] {
  const { films, loads, unsettled } = prediction;
  const charge = loads
    ? `, charge at ${load.toFixed(2)} of the air outside: ${printQuantity(loads.peakPressure, 'bar', 0)} at the peak, ${printQuantity(loads.meanPressure, 'bar', 1)} mean`
    : '';
  return [
    ...heading(`${condition.speedWords}, sump ${condition.words}${charge}`),
    ...table(
      [
        ['', ...filmWords.FILM_COLUMNS[loads ? 'loaded' : 'unloaded']],
        ...films.map((film) => [
          `${film.element}${film.measured ? '' : ' (not measured)'}`,
          ...filmWords.filmCells(film, units, loads !== undefined),
        ]),
      ],
      '  ',
    ),
    ...(unsettled ? paragraph(`FILM TEMPERATURES NOT FOUND: ${unsettled.message}`) : []),
    ...paragraph(filmWords.filmGaugeWords(prediction, units.pressure)),
  ];
}

/** Each figure once where all cylinders share it, else one after the other. */
function figureLines(crank: FilledCrank, units: Units): string[] {
  return [
    ...table(
      filmWords.crankFigures(crank, units).map(({ name, said, from }) => [name, said, from]),
      '  ',
    ),
    ...filmWords.standInWords(crank).flatMap(paragraph),
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
        ({ element, load: on, clearance, measured, assumed, computed, orbit, least }) => ({
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
          steady_film: least.steady && {
            value: least.steady.value,
            standard_uncertainty: standardUncertainty(least.steady),
          },
          least_film: orbit && {
            value: orbit.leastFilm,
            standard_uncertainty: least.cycle && standardUncertainty(least.cycle),
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
