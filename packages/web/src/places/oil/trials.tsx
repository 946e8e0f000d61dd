import { pressureUnit, pressureWords } from '@fettle/book';
import { inUnit } from '@fettle/core';
import { useEffect, useState } from 'preact/hooks';
import { FoldOut } from '../../parts/fold-out.tsx';
import { book } from '../../state/job.ts';
import { grade } from './grade-choice.tsx';
import type { Thought } from './lifted.ts';
import type { Drawn } from './oil-asked.ts';
import type { Predicted } from './prediction.ts';
import { useWorked } from './worked.ts';

/** Draws begin once nobody has dragged for so long [ms]. */
const AT_REST = 300;

interface Shown {
  /** First order, with the engine as thought. */
  readonly rows: readonly Predicted[];
  readonly of: Thought;
}

/** What has stood still for a while; the first is taken at once. */
export function useRested<T>(value: T, wait = AT_REST): T {
  const [rested, setRested] = useState(value);
  useEffect(() => {
    if (rested === value) return undefined;
    const waiting = setTimeout(() => setRested(() => value), wait);
    return () => clearTimeout(waiting);
  }, [value]);
  return rested;
}

const between = (spread: Drawn['spreads'][number], unit: string): string => {
  const decimals = unit === 'bar' ? 2 : 1;
  return `${inUnit(spread.from, unit).toFixed(decimals)} to ${inUnit(spread.to, unit).toFixed(decimals)} ${unit}`;
};

/** The same pressures by Monte Carlo, filling up while it runs; the first order stands beside it from the start. */
export function Trials({ rows, of }: Shown) {
  const unit = pressureUnit(book.value);
  const thought = useRested(of);
  const { answer, busy } = useWorked({
    about: 'trials',
    grade: grade.value,
    running: rows.map(({ speed, temperature }) => ({ speed, temperature })),
    thought,
  });
  const moving = thought !== of || busy;
  if (answer && !answer.ok) return <p class="issue">{answer.issues[0]?.message}</p>;
  const drawn = answer?.value;
  const [idle] = rows;
  if (!drawn || !idle) return <p class="trials">Drawing the readings’ doubts …</p>;
  const lost = Math.max(0, ...drawn.spreads.map((one) => one.lost));
  return (
    <div class="trials" data-trials={drawn.trials}>
      <p>
        By {drawn.trials} draws{drawn.trials < drawn.of ? ` of ${drawn.of}` : ''} (seed {drawn.seed}), at{' '}
        {idle.speedWords} and {idle.temperatureWords}: 95 % of them from{' '}
        <strong>{between(drawn.spreads[0]!, unit)}</strong>.{moving ? ' Drawing on …' : ''}
        {lost > 0 ? ` ${lost} draws found no balance and are left out.` : ''}
      </p>
      <FoldOut summary="At every speed, by draws">
        {() => (
          // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways has to be reached by the keys.
          <section class="scroll" tabIndex={0} aria-label="Pressures by first order and by draws">
            <table>
              <thead>
                <tr>
                  <th scope="col">sump</th>
                  <th scope="col">crank</th>
                  <th scope="col">first order</th>
                  <th scope="col">95 % of {drawn.trials} draws</th>
                </tr>
              </thead>
              <tbody>
                {rows.map((row, i) => {
                  const spread = drawn.spreads[i];
                  return (
                    <tr key={`${row.speed} ${row.temperature}`}>
                      <th scope="row">{row.temperatureWords}</th>
                      <td>{row.speedWords}</td>
                      <td>{pressureWords(row.measured, unit)}</td>
                      <td>{spread ? between(spread, unit) : ''}</td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </section>
        )}
      </FoldOut>
    </div>
  );
}
