import { filmPictures, filmWords, pressureUnit } from '@fettle/book';
import { IDLING_LOAD, printQuantity } from '@fettle/core';
import { orbitSvg, type Picture, unrolledFilmSvg } from '@fettle/draw';
import { useCallback, useState } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { FoldOut } from '../../parts/fold-out.tsx';
import { book } from '../../state/job.ts';
import { grade } from './grade-choice.tsx';
import type { FilmShown } from './oil-asked.ts';
import type { Predicted, Prediction } from './prediction.ts';
import { useWorked } from './worked.ts';

/** The film of one bearing cut open and laid flat, the path of its journal, and the films of all. */
export function Films({ prediction: { rows } }: { readonly prediction: Prediction }) {
  const hot = rows.filter(({ cold }) => !cold);
  const [speed, setSpeed] = useState(0);
  const [bearing, setBearing] = useState<string | undefined>(undefined);
  const at = hot[speed] ?? hot[0];
  const { answer, busy } = useWorked(
    at && {
      about: 'film',
      grade: grade.value,
      running: { speed: at.speed, temperature: at.temperature },
      // The first speed of the sheet is idle.
      load: at === hot[0] ? IDLING_LOAD : 1,
      bearing,
    },
  );
  if (!at || answer === undefined) return <p role="status">Working the films out …</p>;
  if (!answer.ok) return <p class="issue">{answer.issues[0]?.message}</p>;
  const shown = answer.value;
  return (
    <div class="films" data-busy={busy}>
      <p class="spot">
        <label>
          Bearing{' '}
          <select
            value={bearing ?? shown.bearing}
            onChange={({ currentTarget }) => setBearing(currentTarget.value)}
          >
            {shown.prediction.films.map(({ element, measured }) => (
              <option key={element} value={element}>
                {element}
                {measured ? '' : ' (not measured)'}
              </option>
            ))}
          </select>
        </label>{' '}
        <label>
          Crank{' '}
          <select value={speed} onChange={({ currentTarget }) => setSpeed(Number(currentTarget.value))}>
            {hot.map((row, i) => (
              <option key={row.speed} value={i}>
                {row.speedWords}
              </option>
            ))}
          </select>
        </label>
      </p>
      <Pictures shown={shown} at={at} />
      <AllFilms shown={shown} at={at} />
      <Cautions shown={shown} />
    </div>
  );
}

interface Shown {
  readonly shown: FilmShown;
  readonly at: Predicted;
}

function Pictures({ shown: { field, bearing, prediction }, at }: Shown) {
  const film = prediction.films.find(({ element }) => element === bearing);
  const words = field && filmPictures.fieldWords(field);
  const path = film && filmPictures.orbitWords(film);
  const drawField = useCallback(
    (picture: Picture) => (words ? unrolledFilmSvg(words.chart, picture) : ''),
    [field],
  );
  const drawPath = useCallback((picture: Picture) => (path ? orbitSvg(path.chart, picture) : ''), [film]);
  return (
    <>
      {field && words ? (
        <>
          <h3>
            The film of {field.element}, unrolled, at {at.speedWords} and {at.temperatureWords}
          </h3>
          <Drawing
            title={`Film of ${field.element}, unrolled`}
            desc={words.desc}
            draw={drawField}
            widest={1000}
          />
          <p>{words.desc} The mean load as if it stood still: for looking at, not for judging.</p>
        </>
      ) : (
        <p>
          There is no film of {bearing ?? 'a bearing'} to draw: its load is not known, or it is fed by neither
          groove nor hole.
        </p>
      )}
      {path ? (
        <>
          <h3>The path of the journal over the cycle</h3>
          <Drawing title={`Path in ${bearing}`} desc={path.desc} draw={drawPath} widest={1000} />
          <p>{path.desc}</p>
          <p class="caution">
            Caution: {prediction.cautions.find(({ code }) => code === 'film/cyclic-minimum')?.message}
          </p>
        </>
      ) : null}
    </>
  );
}

function AllFilms({ shown: { prediction, load }, at }: Shown) {
  const units = filmWords.filmUnits(pressureUnit(book.value));
  const { films, loads, unsettled } = prediction;
  const columns = filmWords.FILM_COLUMNS[loads ? 'loaded' : 'unloaded'];
  return (
    <>
      <h3>
        {at.speedWords}, sump {at.temperatureWords}
        {loads
          ? `, charge at ${load.toFixed(2)} of the air outside: ${printQuantity(loads.peakPressure, 'bar', 0)} at the peak, ${printQuantity(loads.meanPressure, 'bar', 1)} mean`
          : ''}
      </h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways has to be reached by the keys. */}
      <section class="scroll" tabIndex={0} aria-label="Films of all bearings">
        <table>
          <thead>
            <tr>
              <th scope="col">bearing</th>
              {columns.map((column, i) => (
                <th key={i} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {films.map((film) => (
              <tr key={film.element}>
                <th scope="row">
                  {film.element}
                  {film.measured ? '' : ' (not measured)'}
                </th>
                {filmWords.filmCells(film, units, loads !== undefined).map((cell, i) => (
                  <td key={i}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {unsettled ? <p class="issue">FILM TEMPERATURES NOT FOUND: {unsettled.message}</p> : null}
      <p>{filmWords.filmGaugeWords(prediction, units.pressure)}</p>
    </>
  );
}

function Cautions({ shown: { prediction, crank } }: Pick<Shown, 'shown'>) {
  return (
    <>
      {prediction.cautions
        .filter(({ code }) => code !== 'film/cyclic-minimum')
        .map(({ message }) => (
          <p key={message} class="caution">
            Caution: {message}
          </p>
        ))}
      <FoldOut summary="What loads and films rest on">
        {() => (
          <>
            {'cylinders' in crank ? (
              <>
                <ul class="lines">
                  {filmWords
                    .crankFigures(crank, filmWords.filmUnits(pressureUnit(book.value)))
                    .map(({ name, said, from }) => (
                      <li key={name}>
                        {name}: {said} ({from})
                      </li>
                    ))}
                </ul>
                {filmWords.standInWords(crank).map((words) => (
                  <p key={words}>{words}</p>
                ))}
                <p>{filmWords.CYCLE_WORDS}</p>
              </>
            ) : (
              <p>{crank.message}</p>
            )}
            {filmWords.FILM_GROUNDS.map((ground) => (
              <p key={ground}>{ground}</p>
            ))}
          </>
        )}
      </FoldOut>
    </>
  );
}
