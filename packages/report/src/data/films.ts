import {
  type BearingFilm,
  type Book,
  type FilmPrediction,
  filledCrank,
  filmPrediction,
  filmWords,
  type Reckoning,
} from '@fettle/book';
import { IDLING_LOAD, printQuantity } from '@fettle/core';
import { printableText } from '../printable.ts';
import type { Prediction, Row } from './prediction.ts';

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
    stand_ins: crank.ok ? filmWords.standInWords(crank.value) : [crank.issues[0]!.message],
    cautions: [...new Set(cautions)],
    grounds: filmWords.FILM_GROUNDS,
  };
}

function filmTable(prediction: FilmPrediction, unit: string) {
  const units = filmWords.filmUnits(unit);
  return {
    why_not: prediction.unsettled?.message ?? '',
    lines: prediction.films.map((film) => filmLine(film, units)),
    gauge: filmWords.filmGaugeWords(prediction, unit),
  };
}

function filmLine(film: BearingFilm, units: filmWords.FilmUnits) {
  const { element, measured, load, assumed, computed } = film;
  return {
    bearing: `${printableText(element)}${measured ? '' : ' (not measured)'}`,
    greatest: load ? printQuantity(load.greatest, units.force, 0) : 'not known',
    assumed: filmWords.kelvins(assumed.rise),
    computed: computed ? filmWords.riseWords(computed) : '',
    steady: filmWords.steadyWords(film, units),
    least: filmWords.leastWords(film, units),
  };
}
