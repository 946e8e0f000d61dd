import { type Fastener, isAt, isToBeDecided, type Place, placesOf, questionOfTorque } from '@fettle/book';
import { type Issue, parseQuantity, THREAD_CONDITIONS } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { assessed, book, write } from '../../state/job.ts';
import { TorqueDecision } from './torque-decision.tsx';

const textOf = (place: Place): string =>
  Object.entries(place)
    .map(([axis, value]) => `${axis.replaceAll('-', ' ')} ${value}`)
    .join(', ');

/** Logs a torque that was applied: recorded whatever it is, and asked about when it cannot be. */
export function TorqueForm({ fastener }: { readonly fastener: Fastener }) {
  const sheetTorque = fastener.torque.upper ?? fastener.torque.lower;
  const unit = sheetTorque.replace(/^[\d.\s]+/, '');
  const [torque, setTorque] = useState('');
  const [at, setAt] = useState('');
  const [threads, setThreads] = useState(fastener.condition ?? '');
  const [wrench, setWrench] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const state = assessed.value.torques.find((one) => one.fastener.id === fastener.id);
  const places = placesOf(book.value.sheet ?? { axes: {} }, fastener);
  const wrenches = [...book.value.instruments.values()].filter(({ body }) => body.type === 'torque wrench');
  const taken = wrenches.find(({ body }) => body.instrument === wrench) ?? wrenches[0];
  const question = issues.find(({ code }) => code.startsWith('torque/'));
  const enter = async (confirmed: boolean): Promise<void> => {
    const said = /[a-z]/i.test(torque) ? torque.trim() : `${torque.trim()} ${unit}`;
    const read = parseQuantity(said, 'torque');
    if (!read.ok) return setIssues(read.issues);
    const asked = questionOfTorque(fastener, said, threads === '' ? undefined : threads);
    if (asked && !confirmed) return setIssues([asked]);
    const place = places.find((one) => textOf(one) === at);
    const entries = await write([
      {
        kind: 'torque-pass',
        body: {
          fastener: fastener.id,
          ...(place && Object.keys(place).length > 0 && { place }),
          torque: said,
          pass: fastener.passes,
          of: fastener.passes,
          ...(threads !== '' && { condition: threads }),
          ...(taken && { instrument: taken.body.instrument }),
          ...(asked && { asked: { code: asked.code, question: asked.message, first_said: said } }),
        },
      },
    ]);
    setIssues(entries.ok ? [] : entries.issues);
    if (entries.ok) setTorque('');
  };
  return (
    <details>
      <summary>
        Log its torque{' '}
        <span class="soft">
          {fastener.torque.lower}
          {fastener.torque.upper ? ` to ${fastener.torque.upper}` : ''},{' '}
          {fastener.condition ?? 'condition not said'}
          {fastener.passes > 1 ? `, last of ${fastener.passes} passes` : ''}
        </span>
      </summary>
      {fastener.caution ? <p class="caution">{fastener.caution}</p> : null}
      {state?.advice.ok && state.advice.value.advice !== 'advised'
        ? state.advice.value.reasons.map((reason) => (
            <p key={reason} class="caution">
              {reason}
            </p>
          ))
        : null}
      <form
        class="form two"
        onSubmit={(event) => {
          event.preventDefault();
          void enter(false);
        }}
      >
        <label>
          Wrench set to, {unit}
          <input
            inputMode="decimal"
            value={torque}
            onInput={(event) => setTorque(event.currentTarget.value)}
          />
        </label>
        {places.length > 1 ? (
          <label>
            Which
            <select value={at} onChange={(event) => setAt(event.currentTarget.value)}>
              <option value="">All of them</option>
              {places.map((place) => (
                <option key={textOf(place)} value={textOf(place)}>
                  {textOf(place)}
                  {state?.unlogged.some((open) => isAt(place, open)) ? '' : ', done'}
                </option>
              ))}
            </select>
          </label>
        ) : null}
        <label>
          Threads
          <select value={threads} onChange={(event) => setThreads(event.currentTarget.value)}>
            {fastener.condition === undefined ? (
              <option value="">not said</option>
            ) : (
              <option value={fastener.condition}>{fastener.condition}, as on the sheet</option>
            )}
            {THREAD_CONDITIONS.filter((one) => one !== fastener.condition).map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
        </label>
        {wrenches.length > 1 ? (
          <label>
            With
            <select value={taken?.body.instrument} onChange={(event) => setWrench(event.currentTarget.value)}>
              {wrenches.map(({ body }) => (
                <option key={body.instrument} value={body.instrument}>
                  {body.name}
                </option>
              ))}
            </select>
          </label>
        ) : null}
        <div class="wide">
          <IssueLines issues={issues} />
          <div class="row">
            <button type="submit">Log it</button>
            {question ? (
              <button type="button" onClick={() => void enter(true)}>
                Keep it: {torque}
              </button>
            ) : null}
          </div>
        </div>
      </form>
      {state?.proofs.some(isToBeDecided) ? <TorqueDecision torque={state} /> : null}
    </details>
  );
}
