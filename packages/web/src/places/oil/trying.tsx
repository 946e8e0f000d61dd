import {
  type FilledCircuit,
  pressureUnit,
  pressureVerdict,
  pressureWords,
  wantedPressure,
  wantedWords,
} from '@fettle/book';
import { inUnit, parseQuantity } from '@fettle/core';
import { useState } from 'preact/hooks';
import { SmallVerdict } from '../../parts/verdict.tsx';
import { book } from '../../state/job.ts';
import { unitOf } from '../../state/units.ts';
import { bare, shown } from '../../words/quantity.ts';
import { type Clearance, clearancesOf, handStep, standing, valuesAt } from './clearances.ts';
import { gainOver } from './gain.ts';
import { allPutBack, isNothing, putBack, type Thought, tried } from './lifted.ts';
import type { Predicted, Prediction } from './prediction.ts';

interface Played {
  readonly prediction: Prediction;
  readonly of: Thought;
  /** The prediction's conditions with the engine as thought. */
  readonly rows: readonly Predicted[];
}

/** The engine in thought: one clearance to drag, and what the gauge would then show. */
export function Trying({ prediction, of, rows }: Played) {
  const { circuit } = prediction;
  const clearances = clearancesOf(circuit);
  const [id, choose] = useState(clearances[0]?.id);
  const chosen = clearances.find((one) => one.id === id) ?? clearances[0];
  const held = !isNothing(of);
  return (
    <section class={held ? 'trying held' : 'trying'} aria-label="In thought">
      <Shows prediction={prediction} of={of} rows={rows} circuit={circuit} clearances={clearances} />
      {chosen ? (
        <div class="drag">
          <select
            aria-label="Clearance to try"
            value={chosen.id}
            onChange={({ currentTarget }) => choose(currentTarget.value)}
          >
            {clearances.map((one) => (
              <option key={one.id} value={one.id}>
                {one.characteristic.name}
                {isTried(one, of) ? ' (tried)' : ''}
              </option>
            ))}
          </select>
          <Drag key={chosen.id} clearance={chosen} of={of} />
        </div>
      ) : null}
    </section>
  );
}

const isTried = ({ parameters }: Clearance, { values }: Thought): boolean =>
  parameters.some(({ name }) => values[name] !== undefined);

/** Where a clearance stands: tried, repaired with its tread, or as it is. */
function at(clearance: Clearance, { repairs, values }: Thought): number {
  if (!repairs.includes(clearance.repair)) return standing(clearance, values);
  const { parameters } = clearance;
  return standing(clearance, Object.fromEntries(parameters.map(({ name, repaired }) => [name, repaired])));
}

function Drag({ clearance, of }: { readonly clearance: Clearance; readonly of: Thought }) {
  const { characteristic, asNew, found, from, to, parameters, repair } = clearance;
  const unit = unitOf(characteristic);
  const inOwn = (si: number): number => (unit === undefined ? si : inUnit(si, unit));
  const step = handStep(inOwn(to) - inOwn(from));
  const now = at(clearance, of);
  const [typed, setTyped] = useState<string | undefined>(undefined);
  const { kind } = characteristic;
  const moved = (own: number | string): void => {
    if (kind === 'seen') return;
    const read = parseQuantity(unit === undefined ? String(own) : `${own} ${unit}`, kind);
    if (read.ok && read.value.value > 0) tried(repair, valuesAt(clearance, read.value.value));
  };
  const share = (si: number): number => (to > from ? Math.min(1, Math.max(0, (si - from) / (to - from))) : 0);
  const wrong = typed !== undefined && !(Number(typed) > 0);
  const ends = [
    { si: asNew, word: 'as new' },
    ...(found === undefined ? [] : [{ si: found, word: 'measured' }]),
  ].sort((a, b) => a.si - b.si);
  return (
    <>
      <div class="slide">
        <input
          type="range"
          aria-label={`${characteristic.name}, drag`}
          aria-valuetext={shown(characteristic, now)}
          min={0}
          max={Math.round((inOwn(to) - inOwn(from)) / step)}
          step={1}
          value={Math.round((inOwn(now) - inOwn(from)) / step)}
          onInput={({ currentTarget }) =>
            moved((inOwn(from) + Number(currentTarget.value) * step).toPrecision(9))
          }
        />
        <div class="marks" aria-hidden="true">
          {ends.map(({ si, word }, i) => (
            <span
              key={word}
              class={i === 0 && ends.length > 1 ? 'left' : 'right'}
              style={{ '--at': String(share(si)) }}
            >
              {word} {bare(characteristic, si)}
            </span>
          ))}
        </div>
      </div>
      <label class="typed">
        <input
          type="text"
          inputMode="decimal"
          aria-label={`${characteristic.name}, tried${unit === undefined ? '' : `, ${unit}`}`}
          aria-invalid={wrong}
          value={typed ?? bare(characteristic, now)}
          onFocus={() => setTyped(bare(characteristic, now))}
          onInput={({ currentTarget }) => {
            setTyped(currentTarget.value);
            if (Number(currentTarget.value) > 0) moved(currentTarget.value);
          }}
          onBlur={() => setTyped(undefined)}
        />{' '}
        {unit}
      </label>
      {isTried(clearance, of) ? (
        <button type="button" onClick={() => putBack(parameters.map(({ name }) => name))}>
          Put back
        </button>
      ) : null}
      {wrong ? <p class="issue">Give a number over 0{unit === undefined ? '' : ` in ${unit}`}.</p> : null}
    </>
  );
}

interface Shown extends Played {
  readonly circuit: FilledCircuit;
  readonly clearances: readonly Clearance[];
}

/** The pressures with the engine as thought, in words. */
function Shows({ prediction, of, rows, clearances }: Shown) {
  const now = book.value;
  const unit = pressureUnit(now);
  const [idle, ...others] = rows;
  if (!idle) return null;
  const nothing = isNothing(of);
  const judged = (row: Predicted) => {
    const wanted = wantedPressure(now.sheet, row);
    return wanted && { words: wantedWords(wanted), verdict: pressureVerdict(wanted, row.measured) };
  };
  const first = judged(idle);
  const further = others.flatMap((row) => {
    const one = judged(row);
    return one ? [{ row, ...one }] : [];
  });
  const names = [
    ...of.repairs.map((repair) => `${repair} repaired`),
    ...clearances
      .filter((one) => isTried(one, of))
      .map(({ characteristic, ...one }) => {
        const name = characteristic.name;
        return `${name} ${shown(characteristic, standing({ characteristic, ...one }, of.values))}`;
      }),
  ];
  return (
    <div class="thought">
      <div role="status">
        {nothing ? (
          <p>
            Drag a clearance, or a tread of the stair to the right; a tap repairs a tread whole. It is thought
            only, and written nowhere.
          </p>
        ) : (
          <>
            <p class="figure">
              {pressureWords(idle.measured, unit)}{' '}
              {first?.verdict ? <SmallVerdict status={first.verdict} /> : null}
              <br />
              <small>
                {gainOver(idle.measured, prediction.idle.measured, unit)} by what is thought
                {first ? `; wanted ${first.words}` : ''} at {idle.speedWords}, {idle.temperatureWords}
              </small>
            </p>
            {further.map(({ row, words, verdict }) => (
              <p key={`${row.speed} ${row.temperature}`} class="further">
                {row.speedWords}, {row.temperatureWords}: {pressureWords(row.measured, unit)}{' '}
                {verdict ? <SmallVerdict status={verdict} /> : null} <small>wanted {words}</small>
              </p>
            ))}
            <p class="soft names">In thought only: {names.join('; ')}. What is tried carries no doubt.</p>
          </>
        )}
      </div>
      {nothing ? null : (
        <button type="button" onClick={allPutBack}>
          Put all back
        </button>
      )}
    </div>
  );
}
