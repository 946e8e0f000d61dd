import { expectedPressure, pressureUnit, pressureWords, startUpWords } from '@fettle/book';
import { printQuantity } from '@fettle/core';
import { useMemo } from 'preact/hooks';
import { assessed, book } from '../../state/job.ts';
import { sheetConditions } from '../../words/pressure.ts';
import { grade } from './grade-choice.tsx';

/** Between cold and hot the oil is looked at in so many steps. */
const STEPS = 4;
/** Where the sheet says nothing of cold [K]. */
const ROOM = 293.15;

/** What the gauge should show while the engine warms. */
export function Expected() {
  const now = book.value;
  const { reckoning } = assessed.value;
  const chosen = grade.value;
  const unit = pressureUnit(now);
  const rows = useMemo(() => {
    const conditions = sheetConditions(now);
    if (!conditions) return [];
    const cold = conditions.cold?.si ?? ROOM;
    return Array.from({ length: STEPS + 1 }, (_, i) => {
      const temperature = cold + ((conditions.hot.si - cold) * i) / STEPS;
      return {
        temperature,
        cells: conditions.speeds.map(({ si: speed }) => ({
          speed,
          expected: expectedPressure(now, reckoning, { speed, temperature }, chosen),
        })),
      };
    });
  }, [now, reckoning, chosen]);
  if (rows.length === 0) return <p>The sheet names no speeds, so nothing can be expected of the gauge.</p>;
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways has to be reached by the keys. */}
      <section class="scroll" tabIndex={0} aria-label="What the gauge should show">
        <table>
          <thead>
            <tr>
              <th scope="col">sump</th>
              {rows[0]!.cells.map(({ speed }) => (
                <th key={speed} scope="col">
                  {printQuantity(speed, 'rpm', 0)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ temperature, cells }) => (
              <tr key={temperature}>
                <th scope="row">{printQuantity(temperature, 'degC', 0)}</th>
                {cells.map(({ speed, expected }) => (
                  <td key={speed}>{expected.ok ? pressureWords(expected.value, unit) : 'no balance'}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p class="soft">{startUpWords.expectedGrounds('as fitted now')}</p>
    </>
  );
}
