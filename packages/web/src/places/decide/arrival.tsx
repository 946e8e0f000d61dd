import {
  type Assessed,
  admittedReading,
  assessed as assessedOne,
  axesIn,
  type Characteristic,
  isQuestion,
  needOfPosition,
  type OrderStanding,
  onTrial,
  type Part,
  type Place,
  placesOf,
  placeText,
  positionAt,
  positionsOf,
} from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { PositionOptions } from '../../parts/position-options.tsx';
import { SmallVerdict } from '../../parts/verdict.tsx';
import { heavy } from '../../state/heavy.ts';
import { book, write } from '../../state/job.ts';
import { instrumentsFor, measurandOf, withUnit } from '../../state/measuring.ts';
import { isRead } from '../../state/steps.ts';
import { unitOf } from '../../state/units.ts';
import { idFrom } from '../../words/id.ts';
import { fullName } from '../../words/place.ts';

/** What arrived becomes a part of the engine and is measured before it is believed. */
export function Arrival({ standing }: { readonly standing: OrderStanding }) {
  const { part } = standing;
  return (
    <FoldOut summary={part ? `Measure ${part.name}` : 'Enter it as a part and measure it'}>
      {() => (part ? <Measuring part={part} standing={standing} /> : <AsPart standing={standing} />)}
    </FoldOut>
  );
}

/** Positions that what was ordered is meant for come first. */
function positionsFor({ order }: OrderStanding) {
  const { sheet, supplies } = book.value;
  const covers = new Set((supplies.get(order.body.supply ?? '')?.body.covers ?? []).map(({ need }) => need));
  const meant = (id: string): boolean => covers.has(needOfPosition(sheet, id)?.need ?? '');
  return (sheet ? positionsOf(sheet) : []).sort((a, b) => Number(meant(b.id)) - Number(meant(a.id)));
}

function AsPart({ standing }: { readonly standing: OrderStanding }) {
  const { entry, body } = standing.order;
  const positions = positionsFor(standing);
  const [position, setPosition] = useState(positions[0]?.id ?? '');
  const [fitted, setFitted] = useState(false);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const enter = async (event: Event): Promise<void> => {
    event.preventDefault();
    const { parts } = book.value;
    const wanted = idFrom(`${position} new`, 'part');
    let part = wanted;
    for (let i = 2; parts.has(part); i++) part = `${wanted}-${i}`;
    const entries = await write([
      {
        kind: 'part-entered',
        body: {
          part,
          name: body.item,
          condition: 'new',
          ...(body.number !== undefined && { mark: body.number }),
        },
      },
      ...(fitted ? [{ kind: 'part-fitted' as const, body: { position, part } }] : []),
      { kind: 'receipt', body: { order: entry.id, part } },
    ]);
    setIssues(entries.ok ? [] : entries.issues);
  };
  return (
    <form class="form two" onSubmit={(event) => void enter(event)}>
      <label>
        Where it goes
        <select value={position} onChange={(event) => setPosition(event.currentTarget.value)}>
          <PositionOptions positions={positions} />
        </select>
      </label>
      <label class="check">
        <input
          type="checkbox"
          checked={fitted}
          onChange={(event) => setFitted(event.currentTarget.checked)}
        />
        It is fitted there already
      </label>
      <div class="wide">
        <IssueLines issues={issues} />
        <button type="submit">It is this part</button>
      </div>
    </form>
  );
}

/** Where a part is meant to go, by its id: it was made of the position's. */
const homeOf = (part: string, positions: readonly { readonly id: string }[]): string | undefined =>
  [...book.value.positions.values()].find(({ now }) => now?.part === part)?.id ??
  positions.map(({ id }) => id).find((id) => part === `${id}-new` || part.startsWith(`${id}-new-`));

interface Reading {
  readonly key: string;
  readonly characteristic: Characteristic;
  readonly place: Place;
}

/** Everything that is read with an instrument on a part in a position. */
function readingsAt(position: string): Reading[] {
  const { sheet, characteristics } = book.value;
  return [...characteristics.values()].flatMap((characteristic) => {
    const pattern = characteristic.position;
    if (pattern === undefined || characteristic.kind === 'seen' || !isRead(characteristic)) return [];
    if (axesIn(pattern).length === 0 && pattern !== position) return [];
    return placesOf(sheet ?? { axes: {} }, characteristic)
      .filter((place) => positionAt(pattern, place) === position)
      .map((place) => ({ key: `${characteristic.id}@${placeText(place)}`, characteristic, place }));
  });
}

function Measuring({ part, standing }: { readonly part: Part; readonly standing: OrderStanding }) {
  const positions = positionsFor(standing);
  const [position, setPosition] = useState(homeOf(part.id, positions) ?? positions[0]?.id ?? '');
  const readings = readingsAt(position);
  const [key, setKey] = useState('');
  const now = readings.find((one) => one.key === key) ?? readings[0];
  return (
    <div class="form">
      <label>
        As it would stand at
        <select value={position} onChange={(event) => setPosition(event.currentTarget.value)}>
          <PositionOptions positions={positions} />
        </select>
      </label>
      {now ? (
        <>
          <label>
            What is measured
            <select value={now.key} onChange={(event) => setKey(event.currentTarget.value)}>
              {readings.map((one) => (
                <option key={one.key} value={one.key}>
                  {fullName(one.characteristic, one.place)}
                </option>
              ))}
            </select>
          </label>
          <OneReading key={now.key} part={part} position={position} reading={now} />
        </>
      ) : (
        <p>Nothing is measured on a part there.</p>
      )}
    </div>
  );
}

interface OneGiven {
  readonly part: Part;
  readonly position: string;
  readonly reading: Reading;
}

/** A number and the tool it was read with; the verdict is that of the part on trial in its place. */
function OneReading({ part, position, reading: { characteristic, place } }: OneGiven) {
  const tools = instrumentsFor(characteristic);
  const [tool, setTool] = useState(tools[0]?.instrument ?? '');
  const [text, setText] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const unit = unitOf(characteristic);
  const isOpen = issues.some(isQuestion);
  const judgement: Assessed | undefined = assessedOne(
    book.value,
    onTrial(book.value, { [position]: part.id }),
    heavy.value.catalogue,
    characteristic.id,
  ).find((one) => Object.entries(one.place).every(([axis, value]) => place[axis] === value));
  const had = book.value.readings.filter(
    ({ body, standing }) =>
      standing === 'counts' && body.characteristic === characteristic.id && body.state === part.current.id,
  );
  const enter = async (confirmed: boolean): Promise<void> => {
    const body = admittedReading(book.value, {
      characteristic: characteristic.id,
      place,
      part: part.id,
      instrument: tool,
      measurand: measurandOf(characteristic),
      value: withUnit(characteristic, text),
      confirmed,
    });
    if (!body.ok) return setIssues(body.issues);
    const entries = await write([{ kind: 'reading', body: body.value }]);
    setIssues(entries.ok ? [] : entries.issues);
    if (entries.ok) setText('');
  };
  return (
    <form
      class="form two"
      onSubmit={(event) => {
        event.preventDefault();
        void enter(false);
      }}
    >
      <label>
        With
        <select value={tool} onChange={(event) => setTool(event.currentTarget.value)}>
          {tools.map(({ instrument, name }) => (
            <option key={instrument} value={instrument}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <label>
        What it says{unit === undefined ? '' : `, ${unit}`}
        <input inputMode="decimal" value={text} onInput={(event) => setText(event.currentTarget.value)} />
      </label>
      <div class="wide">
        <IssueLines issues={issues} />
        <div class="row">
          <button type="submit">Enter</button>
          {isOpen ? (
            <button type="button" onClick={() => void enter(true)}>
              Keep it: {text}
            </button>
          ) : null}
        </div>
        {had.length > 0 && judgement ? (
          <p role="status">
            {had
              .map(({ body }) => body.value ?? [body.goes, body.stops].filter(Boolean).join(', '))
              .join('; ')}
            : <SmallVerdict status={judgement.status} />
          </p>
        ) : null}
      </div>
    </form>
  );
}
