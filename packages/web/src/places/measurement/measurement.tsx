import { type Assessed, type Characteristic, placeFrom, positionAt, positionsOf } from '@fettle/book';
import { useEffect } from 'preact/hooks';
import { Lazy } from '../../parts/lazy.tsx';
import { Rail } from '../../parts/rail.tsx';
import { Verdict } from '../../parts/verdict.tsx';
import { WhoLine } from '../../parts/who-line.tsx';
import { Working } from '../../parts/working.tsx';
import { hashOf, route } from '../../route.ts';
import { book, job } from '../../state/job.ts';
import { approach, issues, lastMade, partEnteredAsFound, saying, undo } from '../../state/measuring.ts';
import {
  isRead,
  judgementAt,
  keyOf,
  memberAt,
  neighbours,
  nextWanted,
  type Step,
  statusAt,
} from '../../state/steps.ts';
import { decidingLimits, meanWords, moveWords, STATUS_WORDS, valueWords } from '../../words/judgement.ts';
import { fullName, placeWords } from '../../words/place.ts';
import { operandWords } from '../../words/quantity.ts';
import { useBenchKeys } from './bench-keys.ts';
import { goNext, hashAt } from './going.ts';
import { Saying } from './saying.tsx';

/** Read over three axes: part, then height or end, then direction, as bores and journals are. */
const hasMap = ({ places, kind }: Characteristic): boolean => places.length === 3 && kind !== 'seen';
const temperature = () => import('./temperature-note.tsx').then(({ TemperatureNote }) => TemperatureNote);
/** Whether any place behind it was read at a temperature of its own. */
const isWarm = ({ entries }: Assessed): boolean => {
  const behind = new Set(entries);
  return book.value.readings.some(({ entry, body }) => body.temperature?.part && behind.has(entry.id));
};
const saidLine = () => import('./said-line.tsx').then(({ SaidLine }) => SaidLine);
const boreMap = () => import('./bore-map.tsx').then(({ BoreMap }) => BoreMap);

/** The step the address names; undefined where the sheet has no such place. */
function stepHere(): Step | undefined {
  // An address written by hand may have the place in parts.
  const [id, ...parts] = route.value.rest;
  const at = parts.join('/');
  const characteristic = id === undefined ? undefined : book.value.characteristics.get(id);
  if (!characteristic) return undefined;
  const place = placeFrom(book.value.sheet ?? { axes: {} }, characteristic, at);
  if (!place.ok || characteristic.places.some((axis) => place.value[axis] === undefined)) return undefined;
  return { key: keyOf(characteristic.id, place.value), characteristic, place: place.value };
}

/** One place of one characteristic, large: what is asked, what is said, what it says. */
export function Measurement() {
  const step = stepHere();
  const key = step?.key ?? '';
  const id = job.value;
  // Approached anew when the place changes, not when the book does.
  useEffect(() => {
    if (step) void approach(step);
    scrollTo(0, 0);
  }, [key, id]);
  useBenchKeys(step);
  if (!step)
    return (
      <main class="measure">
        <h1>No such place</h1>
        <p>The spec sheet has nothing of that name, or the place is not whole. Take it from the bench.</p>
        <p>
          <a class="button" href={hashOf(id ?? '', 'bench')}>
            Bench
          </a>
        </p>
      </main>
    );
  return <Place step={step} />;
}

function Place({ step }: { readonly step: Step }) {
  const { characteristic, place } = step;
  const judgement = judgementAt(characteristic, place);
  const status = statusAt(judgement, place);
  const read = isRead(characteristic);
  const isSaying = saying.value && read;
  return (
    <main class={`measure ${isSaying ? 'is-saying' : 'is-told'}`}>
      <Asked step={step} judgement={judgement} />
      <div class="told">
        <Verdict status={status} />
        {judgement ? <Told step={step} judgement={judgement} /> : null}
        {isSaying ? null : <After step={step} read={read} />}
        {judgement ? <Besides judgement={judgement} /> : null}
        {judgement && isWarm(judgement) ? <Lazy load={temperature} given={{ judgement }} /> : null}
      </div>
      {read ? (
        <div class="say">
          {isFitted(step) ? null : <PartLine step={step} />}
          <Saying step={step} />
          {isFitted(step) ? <PartLine step={step} /> : null}
          <WhoLine />
        </div>
      ) : null}
      {read ? <Lazy load={saidLine} given={{ at: characteristic.id }} /> : null}
      {hasMap(characteristic) ? <Lazy load={boreMap} given={{ characteristic }} /> : null}
      {judgement ? <Working judgement={judgement} /> : null}
    </main>
  );
}

function Asked({ step, judgement }: { readonly step: Step; readonly judgement: Assessed | undefined }) {
  const { characteristic, place, key } = step;
  const { before, after } = neighbours(key);
  const at = placeWords(characteristic, place);
  return (
    <div class="asked-for">
      <a class="to-bench" href={hashOf(job.value ?? '', 'bench')}>
        <span aria-hidden="true">‹ </span>Bench
      </a>
      <Neighbour step={before} word="Previous place" sign="‹" />
      <div class="asked-name">
        <h1>{characteristic.name}</h1>
        {at === '' ? null : <p class="at">{at}</p>}
        {judgement ? <p class="limits">{decidingLimits(judgement)}</p> : null}
      </div>
      <Neighbour step={after} word="Next place" sign="›" />
      {characteristic.caution ? <p class="caution">{characteristic.caution}</p> : null}
    </div>
  );
}

function Neighbour({
  step,
  word,
  sign,
}: {
  readonly step: Step | undefined;
  readonly word: string;
  readonly sign: string;
}) {
  const side = sign === '‹' ? 'neighbour before' : 'neighbour after';
  if (!step) return <span class={side} />;
  const name = fullName(step.characteristic, step.place);
  return (
    <a class={side} href={hashAt(step)} title={name}>
      <span aria-hidden="true">{sign}</span>
      <span class="spoken">
        {word}: {name}
      </span>
    </a>
  );
}

/** What the place says, and what to do about it. */
function Told({ step, judgement }: { readonly step: Step; readonly judgement: Assessed }) {
  const { characteristic, place } = step;
  const member = memberAt(judgement, place);
  const operand = member?.known.operand ?? judgement.operand;
  const verdict = judgement.governing && member?.verdicts[judgement.governing];
  const witnesses =
    (member?.known.witnesses.length ?? 0) > 1
      ? member!.known.witnesses.map((one) => ({
          name: one.by === 'relation' ? 'by formula' : one.with,
          operand: one.operand,
        }))
      : [];
  return (
    <div class="says">
      {characteristic.kind === 'seen' ? (
        <p class="figure">{valueWords(judgement)}</p>
      ) : (
        <>
          {operand.kind === 'missing' || characteristic.limits ? null : (
            <p class="figure">{operandWords(characteristic, operand)}</p>
          )}
          <Rail judgement={judgement} operand={operand} verdict={verdict} witnesses={witnesses} />
        </>
      )}
      {judgement.next && judgement.status !== 'missing' ? (
        <p class="next-move">
          <strong>Next:</strong> {moveWords(judgement, judgement.next)}
        </p>
      ) : null}
    </div>
  );
}

/** What all places say together, and what to be careful of. */
function Besides({ judgement }: { readonly judgement: Assessed }) {
  const several = judgement.members.length > 1 && judgement.status !== 'missing';
  const mean = meanWords(judgement);
  return (
    <>
      {several ? (
        <p class="whole">
          All {judgement.members.length} places together: {STATUS_WORDS[judgement.status].toLowerCase()},{' '}
          {valueWords(judgement)}.
        </p>
      ) : null}
      {mean && several ? <p class="whole">{mean}</p> : null}
      {judgement.cautions.map(({ code, message }) => (
        <p key={code} class="caution">
          {message}
        </p>
      ))}
    </>
  );
}

/** After a verdict: on to what wants something next, again, or take it back. */
function After({ step, read }: { readonly step: Step; readonly read: boolean }) {
  const next = nextWanted(step.key);
  return (
    <div class="after">
      <button type="button" class="main-move" id="go-on" onClick={() => goNext(step.key)}>
        {next ? (
          <>
            Next <small>{fullName(next.characteristic, next.place)}</small>
          </>
        ) : (
          'Back to the bench'
        )}
      </button>
      {read ? (
        <button
          type="button"
          class="again"
          onClick={() => {
            saying.value = true;
          }}
        >
          Again
        </button>
      ) : null}
      {lastMade.value ? (
        <button type="button" onClick={() => void undo()}>
          Undo <small>{lastMade.value.words}</small>
        </button>
      ) : null}
    </div>
  );
}

/** Whether a part is entered where the place belongs to one. */
function isFitted({ characteristic, place }: Step): boolean {
  if (characteristic.position === undefined) return true;
  return book.value.positions.get(positionAt(characteristic.position, place))?.now !== undefined;
}

/** Which part is read; where none is entered, one tap enters the one that came with the engine. */
function PartLine({ step: { characteristic, place } }: { readonly step: Step }) {
  if (characteristic.position === undefined) return null;
  const position = positionAt(characteristic.position, place);
  const { sheet, positions, parts } = book.value;
  const name = sheet ? positionsOf(sheet).find(({ id }) => id === position)?.name : undefined;
  const fitted = positions.get(position)?.now;
  const part = fitted && parts.get(fitted.part);
  if (part)
    return (
      <p class="part-line">
        {part.name}, {part.current.condition}
        {part.current.size ? `, ${part.current.size}` : ''}
      </p>
    );
  return (
    <div class="part-line asked">
      <p>No part is entered at {name ?? position}.</p>
      <button type="button" onClick={() => void partEnteredAsFound(position, name ?? position)}>
        It is the one that came with the engine
      </button>
      {issues.value.some(({ code }) => code === 'who/missing') ? (
        <p class="issue">Give your name first.</p>
      ) : null}
    </div>
  );
}
