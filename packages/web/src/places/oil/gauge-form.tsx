import type { Entry } from '@fettle/book';
import { type Issue, parseQuantity, type QuantityKind } from '@fettle/core';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { WhoLine } from '../../parts/who-line.tsx';
import { book, write } from '../../state/job.ts';
import { GaugeJudged } from './gauge-judged.tsx';

const WHEN = [
  { when: 'as-found', name: 'As found' },
  { when: 'start-up', name: 'Start-up' },
  { when: 'break-in', name: 'Break-in' },
  { when: 'later', name: 'Later' },
] as const;

type When = (typeof WHEN)[number]['when'];

export const nameOfWhen = (when: When): string => WHEN.find((one) => one.when === when)?.name ?? when;

/** What a real gauge showed. */
export function GaugeForm() {
  const [pressure, setPressure] = useState('');
  const [speed, setSpeed] = useState('');
  const [temperature, setTemperature] = useState('');
  const [when, setWhen] = useState<When>('as-found');
  const [gauge, setGauge] = useState('');
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [done, setDone] = useState('');
  const [last, setLast] = useState<Entry | undefined>(undefined);
  const gauges = [...book.value.instruments.values()]
    .map(({ body }) => body)
    .filter(({ uncertainty: { expanded } }) => parseQuantity(expanded, 'pressure').ok);
  const instrument =
    gauge ||
    (gauges.length === 1 ? gauges[0]!.instrument : gauges.find(({ type }) => /oil/.test(type))?.instrument) ||
    '';
  const enter = async (event: Event): Promise<void> => {
    event.preventDefault();
    const said: readonly (readonly [string, QuantityKind])[] = [
      [pressure, 'pressure'],
      [speed, 'speed'],
      ...(temperature === '' ? [] : [[temperature, 'temperature'] as const]),
    ];
    const wrong = said.flatMap(([text, kind]) => {
      const read = parseQuantity(text, kind);
      return read.ok ? [] : read.issues;
    });
    if (instrument === '')
      wrong.push({
        code: 'gauge/no-instrument',
        at: 'instrument',
        got: 'none',
        wanted: 'the gauge',
        message: 'Which gauge was it? Choose one; a new one is declared on the sheet, under Instruments.',
      });
    setIssues(wrong);
    if (wrong.length > 0) return;
    const entries = await write([
      {
        kind: 'gauge-reading',
        body: { pressure, speed, ...(temperature !== '' && { temperature }), instrument, when },
      },
    ]);
    setIssues(entries.ok ? [] : entries.issues);
    if (!entries.ok) return;
    setDone(`${pressure} at ${speed} entered.`);
    setLast(entries.value[0]);
    setPressure('');
    setSpeed('');
  };
  const judged = last && book.value.gaugeReadings.find(({ entry }) => entry.id === last.id);
  return (
    <details>
      <summary>Enter what a gauge showed</summary>
      <WhoLine />
      <form class="form two" onSubmit={(event) => void enter(event)}>
        <label>
          Pressure
          <input value={pressure} placeholder="7.5 psi" onInput={(e) => setPressure(e.currentTarget.value)} />
        </label>
        <label>
          Crank speed
          <input value={speed} placeholder="600 rpm" onInput={(e) => setSpeed(e.currentTarget.value)} />
        </label>
        <label>
          Oil in the sump
          <input
            value={temperature}
            placeholder="93 degC"
            onInput={(e) => setTemperature(e.currentTarget.value)}
          />
        </label>
        <label class="wide">
          Gauge
          <select value={instrument} onChange={(e) => setGauge(e.currentTarget.value)}>
            <option value="">Choose</option>
            {gauges.map((one) => (
              <option key={one.instrument} value={one.instrument}>
                {one.name} ±{one.uncertainty.expanded}
              </option>
            ))}
          </select>
        </label>
        <fieldset class="choice wide">
          <legend>When</legend>
          {WHEN.map((one) => (
            <label key={one.when}>
              <input
                type="radio"
                name="when"
                checked={when === one.when}
                onChange={() => setWhen(one.when)}
              />{' '}
              <span>{one.name}</span>
            </label>
          ))}
        </fieldset>
        <div class="wide">
          <IssueLines issues={issues} />
          <div role="status">
            <p>{done}</p>
            {judged ? <GaugeJudged {...judged} /> : null}
          </div>
          <button type="submit">Enter</button>
        </div>
      </form>
    </details>
  );
}
