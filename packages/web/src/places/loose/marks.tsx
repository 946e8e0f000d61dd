import {
  type Astray,
  type Body,
  type Part,
  partsAstray,
  positionsOf,
  positionWords,
  type SheetPosition,
  keepingWords as words,
} from '@fettle/book';
import { useState } from 'preact/hooks';
import { useHandKeys } from '../../parts/hand-keys.ts';
import { PositionOptions } from '../../parts/position-options.tsx';
import { OwnWords, Taps } from '../../parts/taps.tsx';
import { Mark } from '../../parts/verdict.tsx';
import { hashOf, route } from '../../route.ts';
import { book, job } from '../../state/job.ts';
import { enterOne, undoLast } from './entered.ts';
import { ReadBack } from './read-back.tsx';
import { AllOf, type Row, Rows } from './rows.tsx';

/** Ways round that caps, rods, pistons and shells are marked by. Common practice, no source. */
const USUAL_WAYS = [
  'arrow to the front',
  'notch to the front',
  'number to the camshaft',
  'numbers on one side',
  'oil hole to the block',
];

const positionsNow = (): SheetPosition[] => (book.value.sheet ? positionsOf(book.value.sheet) : []);
const called = (positions: readonly SheetPosition[], id: string): string => {
  const known = positions.find((one) => one.id === id);
  return known ? positionWords(known) : id;
};
const standingOf = (part: string) => [...book.value.positions.values()].find(({ now }) => now?.part === part);
const nameOf = (part: string): string => book.value.parts.get(part)?.name ?? part;

/** Where each part belongs, with which partners, and which way round; and how it stands. */
export function Marks() {
  const about = route.value.rest[1];
  const part = about === undefined ? undefined : book.value.parts.get(about);
  if (part) return <OnePart key={part.id} part={part} />;
  const astray = partsAstray(book.value);
  const positions = positionsNow();
  const rowOf = ({ id, name }: Part): Row => {
    const wrong = astray.filter((one) => one.part === id);
    const at = standingOf(id)?.id;
    const where = at === undefined ? 'not fitted' : `at ${called(positions, at)}`;
    const marked = book.value.marks.has(id);
    return {
      id,
      name,
      says: wrong.length > 0 ? 'stands wrong' : `${where}${marked ? ', as marked' : ', not marked'}`,
      status: wrong.length > 0 ? 'out' : marked && at !== undefined ? 'in' : 'missing',
    };
  };
  const order = ['out', 'in', 'missing'];
  const rows = [...book.value.parts.values()]
    .map(rowOf)
    .sort((a, b) => order.indexOf(a.status) - order.indexOf(b.status));
  return (
    <section>
      <h2>Marks: home, partners, way round</h2>
      {rows.length === 0 ? (
        <p>
          No part is entered yet. <a href={hashOf(job.value ?? '', 'sheet', 'parts')}>Enter the parts</a>{' '}
          first.
        </p>
      ) : null}
      <Rows section="marks" rows={rows} />
      <ReadBack />
    </section>
  );
}

function OnePart({ part }: { readonly part: Part }) {
  const now = book.value;
  const positions = positionsNow();
  const mark = now.marks.get(part.id)?.body;
  const at = standingOf(part.id);
  const wrong = partsAstray(now).filter((one) => one.part === part.id);
  const marked = (change: Partial<Body<'part-marked'>>, read: string): void => {
    void enterOne(
      { kind: 'part-marked', body: { ...mark, ...change, part: part.id } },
      () => `${part.name}: ${read}`,
    );
  };
  const fit = (position: string, way: string | undefined, read: string): void => {
    void enterOne(
      { kind: 'part-fitted', body: { position, part: part.id, ...(way !== undefined && { way }) } },
      () => `${part.name}: ${read}`,
    );
  };
  useHandKeys({ undo: () => void undoLast() });
  const here = at ? called(positions, at.id) : undefined;
  return (
    <section class="loose-one">
      <AllOf section="marks" words="All parts" />
      <h1>{part.name}</h1>
      <Standing
        wrong={wrong}
        belongs={[mark?.home === undefined ? undefined : called(positions, mark.home), mark?.way]}
        stands={[here ?? 'not fitted', at?.now?.way]}
      />
      <ReadBack />
      {at && mark?.way !== undefined ? (
        <fieldset class="taps">
          <legend>Which way round does it stand?</legend>
          <button
            type="button"
            class={wrong.some(({ why }) => why.is === 'way-unsaid') ? 'main-move' : undefined}
            onClick={() => fit(at.id, mark.way, `stands ${mark.way}`)}
          >
            As marked <small>{mark.way}</small>
          </button>
          <button
            type="button"
            onClick={() => fit(at.id, 'the other way round', 'stands the other way round')}
          >
            The other way round
          </button>
        </fieldset>
      ) : null}
      <h2>Its home</h2>
      <fieldset class="taps">
        <legend class="spoken">Its home</legend>
        {at && mark?.home !== at.id ? (
          <button type="button" onClick={() => marked({ home: at.id }, `belongs at ${here}`)}>
            Where it stands <small>{here}</small>
          </button>
        ) : null}
        {mark?.home !== undefined && mark.home !== at?.id ? (
          <button
            type="button"
            onClick={() => fit(mark.home!, undefined, `fitted at ${called(positions, mark.home!)}`)}
          >
            It is back at home now <small>{called(positions, mark.home)}</small>
          </button>
        ) : null}
      </fieldset>
      <PositionChoice
        label="Another home"
        positions={positions}
        chosen={mark?.home}
        choose={(home) => marked({ home }, `belongs at ${called(positions, home)}`)}
      />
      <h2>Way round</h2>
      <Ways way={mark?.way} give={(way) => marked({ way }, `must stand ${way}`)} />
      <h2>Partners, made or run in with it</h2>
      <Partners
        part={part}
        positions={positions}
        partners={mark?.partners ?? []}
        give={(partners, read) => marked({ partners: [...partners] }, read)}
      />
      <p class="soft keys">Keys: Tab and Enter choose, F8 takes the last entry back.</p>
    </section>
  );
}

interface StandingGiven {
  readonly wrong: readonly Astray[];
  /** Where and which way round, as marked. */
  readonly belongs: readonly [string | undefined, string | undefined];
  readonly stands: readonly [string, string | undefined];
}

/** How it belongs beside how it stands, with a shape between; every difference in words below. */
function Standing({ wrong, belongs, stands }: StandingGiven) {
  const marked = belongs.some((one) => one !== undefined);
  const status = wrong.length > 0 ? 'out' : marked ? 'in' : 'missing';
  const said = (lines: readonly (string | undefined)[], none: string) =>
    lines.some((one) => one !== undefined) ? lines.filter((one) => one !== undefined).join(', ') : none;
  return (
    <>
      <div class={`as-marked as-${status}`}>
        <div>
          <p class="head">As marked</p>
          <p class="how">{said(belongs, 'not marked yet')}</p>
        </div>
        <div class="sign">
          <Mark status={status} />
          <span>{wrong.length > 0 ? 'Stands wrong' : marked ? 'Agrees' : 'Nothing to go by'}</span>
        </div>
        <div>
          <p class="head">As it stands</p>
          <p class="how">{said(stands, '')}</p>
        </div>
      </div>
      {wrong.map((one) => (
        <p key={JSON.stringify(one.why)} class="issue">
          {words.astrayWords(book.value, one)}.
        </p>
      ))}
    </>
  );
}

interface PositionsGiven {
  readonly label: string;
  readonly positions: readonly SheetPosition[];
  readonly chosen: string | undefined;
  readonly choose: (position: string) => void;
}

function PositionChoice({ label, positions, chosen, choose }: PositionsGiven) {
  if (positions.length === 0) return null;
  return (
    <label>
      {label}
      <select
        value={chosen ?? ''}
        onChange={(event) => event.currentTarget.value && choose(event.currentTarget.value)}
      >
        <option value="">not said</option>
        <PositionOptions positions={positions} />
      </select>
    </label>
  );
}

/** Ways already said in this job come first. */
function Ways({ way, give }: { readonly way: string | undefined; readonly give: (way: string) => void }) {
  const said = [...book.value.marks.values()].flatMap(({ body }) => body.way ?? []);
  const ways = [...new Set([...(way === undefined ? [] : [way]), ...said, ...USUAL_WAYS])].slice(0, 8);
  return (
    <>
      <Taps
        legend="It must stand"
        options={ways.map((value) => ({ value, words: value }))}
        chosen={way}
        choose={give}
      />
      <OwnWords label="Or in your own words" move="So it must stand" give={give} />
    </>
  );
}

interface PartnersGiven {
  readonly part: Part;
  readonly positions: readonly SheetPosition[];
  readonly partners: readonly string[];
  readonly give: (partners: readonly string[], read: string) => void;
}

/** Parts at the same place of other kinds are offered by a tap: the cap of rod 2 to rod 2. */
function Partners({ part, positions, partners, give }: PartnersGiven) {
  const [other, setOther] = useState('');
  const at = positions.find(({ id }) => id === standingOf(part.id)?.id);
  const near = positions.filter(
    ({ id, pattern, place }) =>
      at &&
      id !== at.id &&
      pattern !== at.pattern &&
      Object.entries(at.place).length > 0 &&
      Object.entries(at.place).every(([axis, value]) => place[axis] === value),
  );
  const offered = [
    ...new Set([...partners, ...near.flatMap(({ id }) => book.value.positions.get(id)?.now?.part ?? [])]),
  ];
  const rest = [...book.value.parts.values()].filter(({ id }) => id !== part.id && !offered.includes(id));
  const toggle = (id: string): void =>
    partners.includes(id)
      ? give(
          partners.filter((one) => one !== id),
          `${nameOf(id)} is no partner`,
        )
      : give([...partners, id], `goes with ${nameOf(id)}`);
  return (
    <>
      <fieldset class="taps">
        <legend>It goes with</legend>
        {offered.length === 0 ? <p class="soft">None is near it; choose one below.</p> : null}
        {offered.map((id) => (
          <button key={id} type="button" aria-pressed={partners.includes(id)} onClick={() => toggle(id)}>
            {nameOf(id)}
          </button>
        ))}
      </fieldset>
      {rest.length > 0 ? (
        <div class="row">
          <label>
            Another part
            <select value={other} onChange={(event) => setOther(event.currentTarget.value)}>
              <option value="">choose</option>
              {rest.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          <button
            type="button"
            disabled={other === ''}
            onClick={() => {
              toggle(other);
              setOther('');
            }}
          >
            It is a partner
          </button>
        </div>
      ) : null}
    </>
  );
}
