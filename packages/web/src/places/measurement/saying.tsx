import { type Characteristic, expands, isQuestion, offeredBy, type Place } from '@fettle/book';
import { Choice } from '../../parts/choice.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { NumberPad } from '../../parts/number-pad.tsx';
import { hashOf } from '../../route.ts';
import { job } from '../../state/job.ts';
import {
  canEnter,
  draft,
  enterSeen,
  instrumentOf,
  instrumentsFor,
  issues,
  leavesAt,
  measurandOf,
  pressed,
  takeInstrument,
  takeMeasurand,
  takenBack,
  typed,
  warmth,
} from '../../state/measuring.ts';
import type { Step } from '../../state/steps.ts';
import { unitOf } from '../../state/units.ts';
import { ByLeaves } from './by-leaves.tsx';
import { entered } from './entered.ts';
import { FIELD_ID } from './going.ts';

/** Saying what the instrument says: by keys, or by leaves where the instrument is leaves. */
export function Saying({ step }: { readonly step: Step }) {
  const { characteristic, place } = step;
  if (characteristic.kind === 'seen') return <SayingSeen characteristic={characteristic} place={place} />;
  const leaves = leavesAt(characteristic);
  // What was said before stands below the keys; what is still to be said stands above them.
  const settled = instrumentOf(characteristic) !== undefined && measurandOf(characteristic) !== undefined;
  const choices = (
    <>
      <InstrumentChoice characteristic={characteristic} />
      <MeasurandChoice characteristic={characteristic} />
    </>
  );
  return (
    <>
      {settled ? null : choices}
      {leaves.length > 0 ? <ByLeaves step={step} /> : <ByNumber characteristic={characteristic} />}
      {settled ? choices : null}
      <Warmth characteristic={characteristic} />
    </>
  );
}

function ByNumber({ characteristic }: { readonly characteristic: Characteristic }) {
  const text = draft.value?.text ?? '';
  const unit = unitOf(characteristic);
  const question = issues.value.find(isQuestion);
  return (
    <form
      class="by-number"
      onSubmit={(event) => {
        event.preventDefault();
        void entered();
      }}
    >
      <div class="field">
        <label for={FIELD_ID}>It says</label>
        <span class="typed">
          <input
            id={FIELD_ID}
            class="what-it-says"
            value={text}
            inputMode="none"
            autocomplete="off"
            spellcheck={false}
            aria-describedby="field-issues"
            aria-invalid={issues.value.length > 0}
            onInput={(event) => void typed(event.currentTarget.value)}
          />
          <span class="unit">{unit ?? ''}</span>
        </span>
      </div>
      <IssueLines issues={issues.value} id="field-issues" />
      {question ? (
        <div class="row">
          {offeredBy(question).map((meant) => (
            <button key={meant} type="button" onClick={() => void typed(meant).then(() => entered())}>
              It was {meant}
            </button>
          ))}
          <button type="button" onClick={() => void entered(true)}>
            Keep it: {text} {unit ?? ''}
          </button>
          <button type="button" onClick={() => document.getElementById(FIELD_ID)?.focus()}>
            Correct it
          </button>
        </div>
      ) : null}
      <NumberPad press={(key) => void pressed(key)} back={() => void takenBack()} />
      <button type="submit" class={canEnter.value ? 'main-move' : 'enter'}>
        Enter
      </button>
    </form>
  );
}

function SayingSeen({
  characteristic,
  place,
}: {
  readonly characteristic: Characteristic;
  readonly place: Place;
}) {
  const said = async (asWanted: boolean): Promise<void> => {
    if (await enterSeen(characteristic, place, asWanted))
      document.getElementById('go-on')?.focus({ preventScroll: true });
  };
  return (
    <div class="seen">
      <p>
        Wanted: <strong>{characteristic.wanted ?? 'not said on the sheet'}</strong>
      </p>
      <label for={FIELD_ID}>What you see</label>
      <input
        id={FIELD_ID}
        value={draft.value?.text ?? ''}
        maxLength={500}
        onInput={(event) => void typed(event.currentTarget.value)}
      />
      <IssueLines issues={issues.value} />
      <div class="row">
        <button type="button" class="main-move" onClick={() => void said(true)}>
          As wanted
        </button>
        <button type="button" class="main-move" onClick={() => void said(false)}>
          Not as wanted
        </button>
      </div>
    </div>
  );
}

function InstrumentChoice({ characteristic }: { readonly characteristic: Characteristic }) {
  const offered = instrumentsFor(characteristic);
  const chosen = instrumentOf(characteristic);
  if (offered.length === 0)
    return (
      <p class="issue">
        No instrument is declared that measures this.{' '}
        <a href={hashOf(job.value ?? '', 'sheet', 'instruments')}>Declare one on the sheet</a>.
      </p>
    );
  return (
    <div class="instrument">
      <label for="instrument">With</label>
      <select
        id="instrument"
        value={chosen?.instrument ?? ''}
        onChange={(event) => void takeInstrument(characteristic, event.currentTarget.value)}
      >
        {chosen ? null : <option value="">Choose the instrument</option>}
        {offered.map(({ instrument, name, uncertainty, trust }) => (
          <option key={instrument} value={instrument}>
            {name} ±{uncertainty.expanded}
            {trust === 'default' ? ' (default)' : ''}
          </option>
        ))}
      </select>
    </div>
  );
}

function MeasurandChoice({ characteristic }: { readonly characteristic: Characteristic }) {
  const ways = Object.entries(characteristic.read_as ?? {});
  if (ways.length === 0) return null;
  const chosen = measurandOf(characteristic);
  const own: [string, string] = [characteristic.measurand, 'as the sheet states it'];
  return (
    <Choice
      legend="Read how?"
      name="measurand"
      options={[own, ...ways.map(([name, { how }]): [string, string] => [name, how])].map(([name, how]) => ({
        value: name,
        word: (
          <>
            {name} <small>{how}</small>
          </>
        ),
      }))}
      value={chosen}
      choose={(name) => takeMeasurand(characteristic, name)}
    />
  );
}

/** How warm part and instrument are; away from 20 °C both change their length. */
function Warmth({ characteristic }: { readonly characteristic: Characteristic }) {
  if (!expands(characteristic)) return null;
  const { part, instrument } = warmth.value;
  const said = part !== '' || instrument !== '';
  return (
    <details class="warmth" open={said}>
      <summary>{said ? `Part at ${part || '20'} °C` : 'Not at 20 °C?'}</summary>
      <div class="row">
        <label>
          Part, °C
          <input
            inputMode="decimal"
            value={part}
            onInput={(event) => {
              warmth.value = { ...warmth.value, part: event.currentTarget.value };
            }}
          />
        </label>
        <label>
          Instrument, °C
          <input
            inputMode="decimal"
            value={instrument}
            onInput={(event) => {
              warmth.value = { ...warmth.value, instrument: event.currentTarget.value };
            }}
          />
        </label>
      </div>
      <p class="soft">Kept for the readings that follow, until you change it.</p>
    </details>
  );
}
