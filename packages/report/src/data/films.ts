import {
  type BearingFilm,
  type Book,
  type FilledCrank,
  type FilmPrediction,
  filledCrank,
  filmPrediction,
  type Reckoning,
} from '@fettle/book';
import { IDLING_LOAD, inUnit, printQuantity } from '@fettle/core';
import { printableText } from '../printable.ts';
import type { Prediction, Row } from './prediction.ts';

const kelvins = (rise: number): string => `${rise.toFixed(1)} K`;

/** At hot idle and at the fastest hot speed of the sheet, the throttle open there. */
function settingsOf(rows: Prediction['rows']): { condition: Row['condition']; load: number }[] {
  const idle = rows[0]?.condition;
  if (!idle) return [];
  const fastest = rows
    .map(({ condition }) => condition)
    .filter(({ sump }) => sump === idle.sump)
    .reduce((most, one) => (one.speed > most.speed ? one : most), idle);
  return [
    { condition: idle, load: IDLING_LOAD },
    ...(fastest.speed > idle.speed ? [{ condition: fastest, load: 1 }] : []),
  ];
}

/** How warm the films run and the least film over the cycle: a model coarser than any reading. */
export function filmPages(book: Book, reckoning: Reckoning, { circuit, rows, unit }: Prediction) {
  const crank = filledCrank(book, reckoning);
  const found = settingsOf(rows).map(({ condition, load }) => ({
    condition,
    load,
    films: filmPrediction(
      circuit,
      crank.ok ? crank.value : undefined,
      { speed: condition.speed, temperature: condition.temperature },
      load,
    ),
  }));
  const cautions = found.flatMap(({ films }) =>
    films.ok ? films.value.cautions.map(({ message }) => message) : [],
  );
  return {
    tables: found.map(({ condition, load, films }) => ({
      at: `${condition.crank}, ${condition.sump}${crank.ok ? `, charge at ${load.toFixed(2)} of the air outside` : ''}`,
      ...(films.ok
        ? filmTable(films.value, unit)
        : { why_not: films.issues[0]!.message, lines: [], gauge: '' }),
    })),
    stand_ins: crank.ok ? standIns(crank.value) : [crank.issues[0]!.message],
    cautions: [...new Set(cautions)],
  };
}

function filmTable({ films, gauge, unsettled }: FilmPrediction, unit: string) {
  const pressure = (pascals: number): string => printQuantity(pascals, unit, 1);
  return {
    why_not: unsettled?.message ?? '',
    lines: films.map((film) => filmLine(film, unit)),
    gauge: `At the gauge ${pressure(gauge.assumed)} with the film temperatures and eccentricities the circuit assumes${gauge.computed === undefined ? '' : `, ${pressure(gauge.computed)} with those computed here`}.`,
  };
}

function filmLine({ element, measured, load, assumed, computed, orbit }: BearingFilm, unit: string) {
  return {
    bearing: `${printableText(element)}${measured ? '' : ' (not measured)'}`,
    greatest: load ? printQuantity(load.greatest, unit === 'psi' ? 'lbf' : 'N', 0) : 'not known',
    assumed: kelvins(assumed.rise),
    computed: computed ? `${computed.carried ? '' : 'over '}${kelvins(computed.rise)}` : '',
    least: orbit ? `${leastFilm(orbit.leastFilm, unit)}${orbit.settled ? '' : ' (not settled)'}` : '',
  };
}

const leastFilm = (metres: number, unit: string): string => {
  const micrometres = `${(metres * 1e6).toFixed(1)} µm`;
  return unit === 'psi' ? `${inUnit(metres, 'thou').toFixed(3)} thou, ${micrometres}` : micrometres;
};

const NAMES: Readonly<Record<string, string>> = {
  rod: 'rod, between centres',
  compression_ratio: 'compression ratio',
  piston_mass: 'piston, rings and pin',
  rod_mass: 'rod, whole',
  rod_big_end_mass: 'rod, big end',
  throw_mass: 'throw out of balance',
  inlet_shuts: 'inlet shuts, after bottom',
  exhaust_opens: 'exhaust opens, before bottom',
};

/** Every figure of the crank that nobody gave, and what was put in its place. */
const standIns = ({ cylinders }: FilledCrank): string[] => [
  ...new Set(
    cylinders.flatMap(({ figures }) =>
      Object.values(figures)
        .filter(({ from }) => from === 'assumed')
        .map(({ figure, basis }) => `Stands in for ${NAMES[figure] ?? figure}: ${basis ?? 'assumed'}.`),
    ),
  ),
];
