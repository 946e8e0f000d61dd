import {
  allMaps,
  type Characteristic,
  type JobCard,
  type JobFace,
  type JobMap,
  type JobSpring,
  type MapKind,
  mapKindOf,
  type PlaceCell,
  mapPictures as pictures,
  placeText,
  mapWords as words,
} from '@fettle/book';
import { faceMapSvg, grooveRingSvg, type Picture, springLineSvg } from '@fettle/draw';
import type { ComponentChildren } from 'preact';
import { useCallback, useMemo } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { FoldOut } from '../../parts/fold-out.tsx';
import { hashOf } from '../../route.ts';
import { heavy } from '../../state/heavy.ts';
import { assessed, book, job } from '../../state/job.ts';
import { isRead } from '../../state/steps.ts';
import { unitOf } from '../../state/units.ts';
import { MapChoice, ofKindChosen } from './map-choice.tsx';
import './maps.css';

interface Folded {
  readonly kind: MapKind;
  readonly title: string;
  readonly short: string;
  readonly known: boolean;
  readonly inside: () => ComponentChildren;
}

const fold = ({ title, short, inside }: Folded) => (
  <FoldOut
    key={title}
    summary={
      <>
        {title} <span class="soft">{short}</span>
      </>
    }
  >
    {inside}
  </FoldOut>
);

const kindOf = (title: string, ...of: readonly Characteristic[]): MapKind =>
  mapKindOf([title, ...of.flatMap(({ id, name, position = '' }) => [name, id, position])].join(' '));

/** Where each part is worn, unrolled; every box leads to the reading it shows or still wants. */
export function Maps() {
  const now = book.value;
  const { judgements } = assessed.value;
  const { catalogue } = heavy.value;
  const { maps, faces, springs, cards } = useMemo(
    () => allMaps(now, judgements, catalogue),
    [now, judgements, catalogue],
  );
  const all: readonly Folded[] = [
    ...maps.map((map) => ({
      kind: kindOf(words.mapTitle(map), map.characteristic),
      title: words.mapTitle(map),
      short: words.cellsInShort(map.strips.flatMap(({ cells }) => cells.flat())),
      known: map.measured > 0,
      inside: () => <Unrolled map={map} />,
    })),
    ...faces.map((face) => ({
      kind: 'faces' as const,
      title: words.faceTitle(face),
      short: words.faceInShort(face),
      known: face.measured > 0,
      inside: () => <Face face={face} />,
    })),
    ...springs.map((spring) => {
      const cells = spring.loads.flatMap((load) => load.cells);
      return {
        kind: 'springs' as const,
        title: words.springTitle(spring),
        short: words.cellsInShort(cells),
        known: cells.some(({ operand }) => operand),
        inside: () => <Spring spring={spring} />,
      };
    }),
    ...cards.map((card) => {
      const cells = card.columns.flatMap((column) => column.cells);
      return {
        kind: kindOf(words.cardTitle(card), ...card.columns.map(({ characteristic }) => characteristic)),
        title: words.cardTitle(card),
        short: words.cellsInShort(cells),
        known: cells.some((cell) => cell?.operand),
        inside: () => <Card card={card} />,
      };
    }),
  ];
  const shown = ofKindChosen(all);
  return (
    <main class="sheet">
      <h1>Maps</h1>
      <MapChoice maps={all} />
      <p class="soft">
        A box leads to its reading; an empty one has not been measured. The darker a box, the farther it is
        from as new; framed is the place by which its part is judged, the nearest to a limit or beyond it.
        Where another place is farther from new, its box is broken-framed and says so.
      </p>
      {all.length === 0 ? <p>{words.NO_MAPS}</p> : null}
      <div class="map-folds">
        {shown.filter(({ known }) => known).map(fold)}
        {shown.some(({ known }) => !known) ? <h2>Not measured yet</h2> : null}
        {shown.filter(({ known }) => !known).map(fold)}
      </div>
    </main>
  );
}

function Unrolled({ map }: { readonly map: JobMap }) {
  const { characteristic: c, strip, row, column, rows, columns, strips } = map;
  return (
    <section class="map">
      {unitOf(c) === undefined ? null : <p class="soft">In {words.unitInWords(unitOf(c) ?? '')}.</p>}
      <Lines lines={words.mapLines(map, unitOf)} />
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
                      <Box
                        key={placeText(cell.place)}
                        characteristic={c}
                        cell={cell}
                        differs={one.cells.flat().some(({ farthest }) => farthest)}
                      />
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
            <figcaption class="soft">{words.stripWords(map, one, unitOf)}</figcaption>
          </figure>
        ))}
      </div>
      <Notes notes={words.mapNotes(map)} />
    </section>
  );
}

interface BoxGiven {
  readonly characteristic: Characteristic;
  readonly cell: PlaceCell | undefined;
  /** Whether the place that decides and the farthest from new are not one. */
  readonly differs?: boolean;
}

function Box({ characteristic: c, cell, differs = false }: BoxGiven) {
  if (!cell) return <td class="map-none">–</td>;
  const figure = words.cellWords(c, cell, unitOf);
  const verdict = words.verdictWords(cell.verdict);
  const off = words.offWords(c, cell, unitOf);
  const mark = cell.farthest ? 'farthest' : cell.worst && differs ? 'decides' : '';
  const said = `${c.name}, ${words.placeWords(cell.place)}: ${figure === '' ? 'not measured' : `${figure} ${verdict}`}${mark === '' ? '' : `, ${mark === 'decides' ? 'decides' : 'farthest from new'}`}`;
  const inside =
    figure === '' ? null : (
      <>
        <b>{figure}</b>
        {off === '' || off.replace('+', '') === figure ? null : <small>{off}</small>}
        {verdict === '' ? null : <small>{verdict}</small>}
        {mark === '' ? null : <small class="map-mark">{mark}</small>}
      </>
    );
  const leads = isRead(c) && job.value !== undefined;
  return (
    <td data-shade={cell.shade} class={cell.worst ? 'map-worst' : cell.farthest ? 'map-farthest' : undefined}>
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

const Lines = ({ lines }: { readonly lines: readonly string[] }) => (
  <>
    {lines.map((line) => (
      <p key={line}>{line}</p>
    ))}
  </>
);

const Notes = ({ notes }: { readonly notes: readonly string[] }) => (
  <>
    {notes.map((note) => (
      <p key={note} class="soft">
        {note}
      </p>
    ))}
  </>
);

/** A face from above, and below it a box for each spot. */
function Face({ face }: { readonly face: JobFace }) {
  const title = words.faceTitle(face);
  const draw = useCallback(
    (picture: Picture) => faceMapSvg(pictures.facePicture(face, unitOf), picture),
    [face],
  );
  const { axis, spots, characteristic } = face;
  return (
    <section class="map">
      <Lines lines={words.faceLines(face, unitOf)} />
      <Drawing title={title} desc="Every spot in its place, the lower the darker." draw={draw} widest={900} />
      <Boxes
        name={title}
        axis={axis}
        rows={spots.map(({ value }) => value)}
        columns={[{ characteristic, cells: spots.map(({ cell }) => cell) }]}
      />
      <Notes notes={words.faceNotes(face)} />
    </section>
  );
}

function Spring({ spring }: { readonly spring: JobSpring }) {
  const title = words.springTitle(spring);
  const draw = useCallback(
    (picture: Picture) => springLineSvg(pictures.springPicture(spring, unitOf), picture),
    [spring],
  );
  return (
    <section class="map">
      <Lines lines={words.springLines(spring, unitOf)} />
      <Drawing title={title} desc="What was read against the limits." draw={draw} widest={700} />
      <Notes notes={words.springNotes(spring)} />
    </section>
  );
}

/** How deep round a ring. */
function Ring({ column, axis }: { readonly column: JobCard['columns'][number]; readonly axis: string }) {
  const { name } = column.characteristic;
  const ring = pictures.ringPicture(column, axis, unitOf);
  const draw = useCallback(
    (picture: Picture) => {
      const drawn = pictures.ringPicture(column, axis, unitOf);
      return drawn ? grooveRingSvg(drawn, picture) : '';
    },
    [column, axis],
  );
  if (!ring) return null;
  return (
    <figure class="map-strip">
      <figcaption>{name}</figcaption>
      <Drawing
        title={name}
        desc={`How deep at each ${axis}, the farther out the deeper.`}
        draw={draw}
        widest={480}
      />
      <Notes notes={words.ringLines(column, unitOf)} />
    </figure>
  );
}

function Card({ card }: { readonly card: JobCard }) {
  const { axis, rows, columns } = card;
  const title = words.cardTitle(card);
  return (
    <section class="map">
      <div class="map-rings">
        {columns.map((column) => (
          <Ring key={column.characteristic.id} column={column} axis={axis} />
        ))}
      </div>
      <Boxes name={title} axis={axis} rows={rows} columns={columns} />
      <Notes notes={words.cardNotes(card)} />
    </section>
  );
}

interface BoxesGiven {
  readonly name: string;
  readonly axis: string;
  readonly rows: readonly string[];
  readonly columns: readonly JobCard['columns'][number][];
}

/** One row of boxes for each thing read along the axis. */
function Boxes({ name, axis, rows, columns }: BoxesGiven) {
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard. */}
      <section class="scroll" tabIndex={0} aria-label={name}>
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
    </>
  );
}
