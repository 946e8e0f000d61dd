import {
  type Characteristic,
  type JobCard,
  type JobMap,
  jobCards,
  jobMaps,
  type PlaceCell,
  placeText,
  mapWords as words,
} from '@fettle/book';
import { useMemo } from 'preact/hooks';
import { hashOf } from '../../route.ts';
import { assessed, book, job } from '../../state/job.ts';
import { isRead } from '../../state/steps.ts';
import { unitOf } from '../../state/units.ts';
import './maps.css';

/** Where each part is worn, unrolled; every box leads to the reading it shows or still wants. */
export function Maps() {
  const now = book.value;
  const { judgements } = assessed.value;
  const maps = useMemo(() => jobMaps(now, judgements), [now, judgements]);
  const cards = useMemo(() => jobCards(now, judgements), [now, judgements]);
  return (
    <main class="sheet">
      <h1>Maps</h1>
      <p class="soft">
        A box leads to its reading; an empty one has not been measured. The darker a box, the farther it is
        from as new.
      </p>
      {maps.length === 0 ? <p>{words.NO_MAPS}</p> : null}
      {maps.map((map) => (
        <Unrolled key={map.characteristic.id} map={map} />
      ))}
      {cards.map((card) => (
        <Card key={card.axis} card={card} />
      ))}
    </main>
  );
}

function Unrolled({ map }: { readonly map: JobMap }) {
  const { characteristic: c, strip, row, column, rows, columns, strips } = map;
  return (
    <section class="map">
      <h2>
        {words.mapTitle(map)}
        {unitOf(c) === undefined ? '' : ` [${unitOf(c)}]`}
      </h2>
      {words.mapLines(map, unitOf).map((line) => (
        <p key={line}>{line}</p>
      ))}
      <div class="map-strips">
        {strips.map((one) => (
          <figure key={one.value ?? ''} class="map-strip">
            <table>
              <caption>{strip === undefined ? c.name : words.axisWords(strip, one.value ?? '')}</caption>
              <thead>
                <tr>
                  <td />
                  {columns.map((value) => (
                    <th key={value} scope="col">
                      {words.axisWords(column, value)}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {one.cells.map((line, r) => (
                  <tr key={rows[r]}>
                    <th scope="row">{words.axisWords(row, rows[r] ?? '')}</th>
                    {line.map((cell) => (
                      <Box key={placeText(cell.place)} characteristic={c} cell={cell} />
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
            <figcaption class="soft">{words.stripWords(one, c, unitOf)}</figcaption>
          </figure>
        ))}
      </div>
      {words.mapNotes(map).map((note) => (
        <p key={note} class="soft">
          {note}
        </p>
      ))}
    </section>
  );
}

interface BoxGiven {
  readonly characteristic: Characteristic;
  readonly cell: PlaceCell | undefined;
}

function Box({ characteristic: c, cell }: BoxGiven) {
  if (!cell) return <td class="map-none" />;
  const figure = words.cellWords(c, cell, unitOf);
  const verdict = words.verdictWords(cell.verdict);
  const off = words.offWords(c, cell, unitOf);
  const said = `${c.name}, ${words.placeWords(cell.place)}: ${figure === '' ? 'not measured' : `${figure} ${verdict}`}`;
  const inside =
    figure === '' ? null : (
      <>
        <b>{figure}</b>
        {off === '' || off.replace('+', '') === figure ? null : <small>{off}</small>}
        {verdict === '' ? null : <small>{verdict}</small>}
      </>
    );
  const leads = isRead(c) && job.value !== undefined;
  return (
    <td data-shade={cell.shade} class={cell.worst ? 'map-worst' : undefined}>
      {leads ? (
        <a href={hashOf(job.value!, 'at', c.id, placeText(cell.place, c.places))} aria-label={said}>
          {inside}
        </a>
      ) : (
        <span>{inside}</span>
      )}
    </td>
  );
}

function Card({ card }: { readonly card: JobCard }) {
  const { axis, rows, columns } = card;
  return (
    <section class="map">
      <h2>{words.cardTitle(card)}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard. */}
      <section class="scroll" tabIndex={0} aria-label={words.cardTitle(card)}>
        <table class="map-card">
          <thead>
            <tr>
              <th scope="col">{axis}</th>
              {rows.map((value) => (
                <th key={value} scope="col">
                  {value}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {columns.map((column) => (
              <tr key={column.characteristic.id}>
                <th scope="row">
                  {column.characteristic.name}
                  <small>{words.columnLimits(column, unitOf)}</small>
                  <small>{words.columnWords(column, unitOf)}</small>
                </th>
                {rows.map((value, r) => (
                  <Box key={value} characteristic={column.characteristic} cell={column.cells[r]} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {words.cardNotes(card).map((note) => (
        <p key={note} class="soft">
          {note}
        </p>
      ))}
    </section>
  );
}
