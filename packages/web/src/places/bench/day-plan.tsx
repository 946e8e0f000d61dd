import { readingPlan, readingPlanWords as words } from '@fettle/book';
import { useState } from 'preact/hooks';
import { assessed, book } from '../../state/job.ts';
import { keyOf } from '../../state/steps.ts';
import { placeWords } from '../../words/place.ts';
import { hashAt } from '../measurement/going.ts';
import './day-plan.css';

/** How long there may be; the last is the whole plan [min]. */
const CHOICES: readonly (readonly [minutes: number, says: string])[] = [
  [30, 'half an hour'],
  [60, 'an hour'],
  [120, 'two hours'],
  [240, 'half a day'],
  [Number.POSITIVE_INFINITY, 'all of it'],
];
/** More places than these are counted. */
const MOST_PLACES = 4;

/** What to read in the time there is, in the order that decides most soonest. */
export function DayPlan() {
  const [minutes, setMinutes] = useState(60);
  const plan = readingPlan(book.value, assessed.value);
  const runs = words.planRuns(plan, minutes, placeWords);
  return (
    <div class="day-plan">
      <p>In the order that decides most soonest.</p>
      <label>
        There is{' '}
        <select
          value={String(minutes)}
          onChange={({ currentTarget }) => setMinutes(Number(currentTarget.value))}
        >
          {CHOICES.map(([value, says]) => (
            <option key={says} value={String(value)}>
              {says}
            </option>
          ))}
        </select>
      </label>
      <p>{words.planSum(plan, minutes)}</p>
      <ol>
        {runs.map((run) => {
          const [{ characteristic, place }] = run.steps as [(typeof run.steps)[0]];
          const key = keyOf(characteristic.id, place);
          return (
            <li key={`${key} ${run.at}`}>
              <a href={hashAt({ characteristic, place })}>
                <strong class="leads">{run.what}</strong>{' '}
                {run.where.length > MOST_PLACES ? `${run.where.length} places` : run.where.join('; ')}
                <span class="soft">
                  {' '}
                  {run.with}, done after {words.minutesWords(run.at)}
                </span>
              </a>
              {run.decides.map((one) => (
                <p key={one}>decides {one}</p>
              ))}
            </li>
          );
        })}
      </ol>
      {words.leftWords(plan.left).map((one) => (
        <p key={one}>{one}</p>
      ))}
      <p class="soft">{words.PLAN_GROUNDS}</p>
    </div>
  );
}
