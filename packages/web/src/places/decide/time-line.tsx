import { type Basket, type TimeLine as Found, timeLineOf, timelineWords } from '@fettle/book';
import { type Picture, timeLineSvg } from '@fettle/draw';
import { useCallback, useEffect, useState } from 'preact/hooks';
import { Drawing } from '../../parts/drawing.tsx';
import { book } from '../../state/job.ts';
import { usePlanned } from './planned.ts';
import { OwnTasks } from './task-form.tsx';

/** What lies ahead, what the date hangs on, and the chance of meeting it. */
export function TimeLine() {
  const planned = usePlanned();
  return (
    <section class="time-line">
      <h2>Time line</h2>
      {planned ? <Worked basket={planned.basket} /> : <p class="soft">Working it out …</p>}
    </section>
  );
}

function Worked({ basket }: { readonly basket: Basket }) {
  const now = book.value;
  const [line, setLine] = useState<Found | undefined>(undefined);
  useEffect(() => {
    const waiting = setTimeout(() => setLine(timeLineOf(now, basket, { now: Date.now() })), 0);
    return () => clearTimeout(waiting);
  }, [now, basket]);
  return line ? <Shown line={line} /> : <p class="soft">Working it out …</p>;
}

function Shown({ line }: { readonly line: Found }) {
  const draw = useCallback(
    (picture: Picture): string => timeLineSvg(timelineWords.timeLineChart(line), picture),
    [line],
  );
  const [first, ...rest] = timelineWords.dateWords(line);
  const critical = timelineWords.criticalWords(line);
  const shown = line.tasks.filter(({ times }) => times.latest > 0);
  return (
    <>
      <p class="figure">{first}</p>
      {rest.map((words) => (
        <p key={words}>{words}</p>
      ))}
      {critical === '' ? null : <p>{critical}</p>}
      {line.problems.map(({ message }) => (
        <p key={message} class="issue">
          {message}
        </p>
      ))}
      {shown.length > 0 ? (
        <>
          <Drawing
            title="Tasks over time from today"
            desc={[first, critical].join(' ')}
            draw={draw}
            widest={1100}
          />
          <p class="soft">
            Hatched: the date hangs on it. Dotted: so much later it could be. Line with an end: the longest it
            may take.
          </p>
          <h3>Tasks</h3>
          <ul class="lines">
            {shown.map((task) => (
              <li key={task.id}>
                <strong>{task.name}</strong>: {timelineWords.takesWords(task)};{' '}
                {timelineWords.readyWords(line, task.id)}{' '}
                <span class="soft">{timelineWords.criticalShare(line, task.id)}</span>
              </li>
            ))}
          </ul>
        </>
      ) : null}
      <h3>On what this rests</h3>
      {timelineWords.chanceRests(line).map((words) => (
        <p key={words} class="soft">
          {words}
        </p>
      ))}
      <OwnTasks />
    </>
  );
}
