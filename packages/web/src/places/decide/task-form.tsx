import { admittedTask, type Body } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { useState } from 'preact/hooks';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { Taps } from '../../parts/taps.tsx';
import { book, write } from '../../state/job.ts';
import { idFrom } from '../../words/id.ts';
import { LeadTime } from './lead-time.tsx';
import { Field } from './supply-form.tsx';

/** Work that most rebuilds hold and nobody orders. Common practice, no source. */
const USUAL = ['Washing', 'Measuring', 'Painting', 'Putting it together', 'Sealant cures', 'First start'];
const TIMES = ['1 day', '2 days', '3 days', '1 week', '2 weeks'];

/** Tasks of one's own: what stands, what is over, and another one. */
export function OwnTasks() {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const tasks = [...book.value.tasks.values()];
  const over = async (body: Body<'task-planned'>): Promise<void> => {
    const entries = await write([{ kind: 'task-planned', body: { ...body, done: body.done !== true } }]);
    setIssues(entries.ok ? [] : entries.issues);
  };
  return (
    <>
      <h3>Tasks of one’s own</h3>
      {tasks.length === 0 ? <p>None is planned.</p> : null}
      <ul class="lines">
        {tasks.map(({ body }) => (
          <li key={body.task}>
            <div class="order">
              <p>
                <strong>{body.name}</strong> {body.takes}
                {body.done ? ', over' : ''}
              </p>
              <button
                type="button"
                aria-label={`${body.name} ${body.done ? 'is not over' : 'is over'}`}
                onClick={() => void over(body)}
              >
                {body.done ? 'It is not over' : 'It is over'}
              </button>
            </div>
          </li>
        ))}
      </ul>
      <IssueLines issues={issues} />
      <FoldOut summary="Another task">{() => <TaskForm />}</FoldOut>
    </>
  );
}

const NOTHING = { name: '', takes: '', soonest: '', latest: '' };
type Begins = 'at-once' | 'after-all' | 'after-some';

function TaskForm() {
  const now = book.value;
  const [said, setSaid] = useState(NOTHING);
  const [begins, setBegins] = useState<Begins>('after-all');
  const [needs, setNeeds] = useState<readonly string[]>([]);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const before = [
    ...[...now.tasks.values()].map(({ body }) => ({ id: body.task, name: body.name })),
    ...[...now.offers.values()].map(({ body }) => ({ id: body.offer, name: body.name })),
    ...[...now.supplies.values()].map(({ body }) => ({ id: body.supply, name: body.name })),
  ];
  const set = (change: Partial<typeof NOTHING>): void => setSaid({ ...said, ...change });
  const enter = async (event: Event): Promise<void> => {
    event.preventDefault();
    const name = said.name.trim();
    if (name === '' || said.takes.trim() === '')
      return setIssues([
        {
          code: 'task/not-said',
          at: name === '' ? 'name' : 'takes',
          got: 'nothing',
          wanted: 'what is done, and how long it takes',
          message: 'Say what is done and how long it takes most likely, such as 2 days.',
        },
      ]);
    let task = idFrom(name, 'task');
    for (let i = 2; now.tasks.has(task) || now.offers.has(task) || now.supplies.has(task); i++)
      task = `${idFrom(name, 'task')}-${i}`;
    const body = admittedTask(now, {
      task,
      name,
      takes: said.takes.trim(),
      ...(said.soonest.trim() !== '' && { soonest: said.soonest.trim() }),
      ...(said.latest.trim() !== '' && { latest: said.latest.trim() }),
      ...(begins === 'after-all' && { after_all: true }),
      ...(begins === 'after-some' && needs.length > 0 && { needs: [...needs] }),
    });
    if (!body.ok) return setIssues(body.issues);
    const entries = await write([{ kind: 'task-planned', body: body.value }]);
    setIssues(entries.ok ? [] : entries.issues);
    if (!entries.ok) return;
    setSaid(NOTHING);
    setNeeds([]);
  };
  return (
    <form class="form two" onSubmit={(event) => void enter(event)}>
      <div class="wide">
        <Taps
          legend="What is done"
          options={USUAL.map((value) => ({ value, words: value }))}
          chosen={said.name}
          choose={(name) => set({ name })}
        />
      </div>
      <Field name="In your own words" value={said.name} say={(name) => set({ name })} />
      <LeadTime
        legend="It takes most likely"
        said={said.takes}
        say={(takes) => set({ takes })}
        usual={TIMES}
      />
      <Field name="If all goes well" value={said.soonest} say={(soonest) => set({ soonest })} />
      <Field
        name="Not longer than, unless something breaks"
        value={said.latest}
        say={(latest) => set({ latest })}
      />
      <div class="wide">
        <Taps
          legend="It begins"
          options={[
            { value: 'at-once', words: 'Now' },
            { value: 'after-all', words: 'When everything bought and machined is there' },
            { value: 'after-some', words: 'After some of it' },
          ]}
          chosen={begins}
          choose={setBegins}
        />
        {begins === 'after-some' ? (
          <fieldset class="taps">
            <legend>After</legend>
            {before.map(({ id, name }) => (
              <button
                key={id}
                type="button"
                aria-pressed={needs.includes(id)}
                onClick={() =>
                  setNeeds(needs.includes(id) ? needs.filter((one) => one !== id) : [...needs, id])
                }
              >
                {name}
              </button>
            ))}
          </fieldset>
        ) : null}
        <IssueLines issues={issues} />
        <button type="submit">It is planned</button>
      </div>
    </form>
  );
}
