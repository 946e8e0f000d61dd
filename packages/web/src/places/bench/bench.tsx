import type { Status } from '@fettle/book';
import { noticesOf } from '@fettle/book';
import { useEffect, useState } from 'preact/hooks';
import { draftsOf, type ReadingDraft } from '../../ledger/drafts.ts';
import { Lazy } from '../../parts/lazy.tsx';
import { PLACES } from '../../parts/top-bar.tsx';
import { Mark, SmallVerdict } from '../../parts/verdict.tsx';
import { WhoLine } from '../../parts/who-line.tsx';
import { hashOf } from '../../route.ts';
import { desk } from '../../state/desk.ts';
import { assessed, book, job } from '../../state/job.ts';
import { instrumentOf } from '../../state/measuring.ts';
import { comesBack, leftSeen } from '../../state/pause.ts';
import { idlePressure } from '../../state/pressure.ts';
import { judgementAt, keyOf, nextWanted, wanted } from '../../state/steps.ts';
import { entryWords, whenWords } from '../../words/entry.ts';
import { decidingLimits, moveWords, STATUS_WORDS } from '../../words/judgement.ts';
import { fullName, placeWords } from '../../words/place.ts';
import { hashAt } from '../measurement/going.ts';
import { Everything } from './everything.tsx';

/** What is next, what is held, what was last entered: ten seconds to be back in it. */
export function Bench() {
  const id = job.value ?? '';
  return (
    <main class="bench">
      <h1 class="bench-title">{book.value.opened?.body.title ?? 'The bench'}</h1>
      <WhoLine />
      <Morning />
      <Notices />
      <Resume />
      <Next />
      <Day />
      <Standing />
      <div class="beside">
        <Held />
        <Recent />
      </div>
      <Everything />
      <nav class="places" aria-label="Places of the bench">
        {PLACES.filter(({ place }) => place !== 'bench').map(({ place, name, says }) => (
          <a key={place} href={hashOf(id, place)}>
            <strong>{name}</strong> <span>{says}</span>
          </a>
        ))}
      </nav>
    </main>
  );
}

const leftCard = () => import('../loose/left.tsx').then(({ Left }) => Left);
const LEFT_SEEN = { done: () => void leftSeen() };

/** How the engine was left, before anything else, for whoever comes back to it. */
const Morning = () => (comesBack.value ? <Lazy load={leftCard} given={LEFT_SEEN} /> : null);

function Notices() {
  const said = noticesOf(book.value);
  if (said.length === 0) return null;
  return (
    <section class="notices" aria-label="About the ledger">
      {said.slice(0, 6).map((words) => (
        <p key={words} class="issue">
          {words.replace(/^! /, '')}
        </p>
      ))}
      {said.length > 6 ? <p>… and {said.length - 6} more, under Entries.</p> : null}
    </section>
  );
}

/** What was being typed when the tab was closed. */
function Resume() {
  const [drafts, setDrafts] = useState<readonly ReadingDraft[]>([]);
  const id = job.value;
  useEffect(() => {
    if (id !== undefined)
      void draftsOf(desk().db, id)
        .then(setDrafts)
        .catch(() => {});
  }, [id]);
  const [latest] = drafts;
  const characteristic = latest && book.value.characteristics.get(latest.characteristic);
  if (!latest || !characteristic) return null;
  const step = { key: keyOf(characteristic.id, latest.place), characteristic, place: latest.place };
  return (
    <a class="resume" href={hashAt(step)}>
      <strong>Go on typing:</strong> {latest.text || 'leaves tried'} at{' '}
      {fullName(characteristic, latest.place)}
    </a>
  );
}

function Next() {
  const step = nextWanted();
  const { unread, undecided } = wanted.value;
  if (!step)
    return (
      <section class="next">
        <p class="next-what">Nothing is left to read.</p>
      </section>
    );
  const judgement = judgementAt(step.characteristic, step.place);
  const isUndecided =
    undecided.some(({ key }) => key === step.key) && !unread.some(({ key }) => key === step.key);
  // What would decide is what to pick up, not what was used before.
  const decider = isUndecided && judgement?.next?.move === 'use-instrument' ? judgement.next : undefined;
  const instrument = decider ?? instrumentOf(step.characteristic);
  const at = placeWords(step.characteristic, step.place);
  return (
    <section class="next">
      <a class="next-step" href={hashAt(step)} id="next-step">
        <span class="next-word">{isUndecided ? 'Next, to be decided' : 'Next'}</span>
        <span class="next-what">{step.characteristic.name}</span>
        {at === '' ? null : <span class="next-at">{at}</span>}
        <span class="next-with">
          {[
            step.characteristic.kind === 'seen'
              ? 'looked at'
              : instrument
                ? `with ${instrument.name}`
                : undefined,
            judgement ? decidingLimits(judgement) : undefined,
          ]
            .filter((part) => part !== undefined && part !== '')
            .join(' · ')}
        </span>
      </a>
      {isUndecided && judgement?.next ? <p>{moveWords(judgement, judgement.next)}</p> : null}
      <p class="soft">
        {unread.length} {unread.length === 1 ? 'place' : 'places'} to read, {undecided.length} that a reading
        would decide.
      </p>
    </section>
  );
}

const dayPlan = () => import('./day-plan.tsx').then(({ DayPlan }) => DayPlan);

/** Fetched and worked out when it is opened. */
function Day() {
  const [open, setOpen] = useState(false);
  return (
    <details class="day" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>What to read today</summary>
      {open ? <Lazy load={dayPlan} given={{}} /> : null}
    </details>
  );
}

const SHOWN: readonly Status[] = ['out', 'cannot-tell', 'missing', 'in'];

/** The whole job in two lines: verdicts counted, and the pressure they would give. */
function Standing() {
  const { judgements } = assessed.value;
  const count = (status: Status): number =>
    judgements.filter(
      (one) => one.status === status && (status !== 'missing' || !one.characteristic.optional),
    ).length;
  const idle = idlePressure.value;
  return (
    <section class="standing" aria-label="How the engine stands">
      <ul class="counts">
        {SHOWN.map((status) => (
          <li key={status}>
            <Mark status={status} /> <strong>{count(status)}</strong> {STATUS_WORDS[status].toLowerCase()}
          </li>
        ))}
      </ul>
      {idle ? (
        <a class="pressure-line" href={hashOf(job.value ?? '', 'oil')}>
          <span class="leads">Oil at {idle.speed}</span>: <strong>{idle.words}</strong> predicted
          {idle.wanted ? `, ${idle.wanted} wanted` : ''}
          {idle.verdict ? (
            <>
              {' '}
              <SmallVerdict status={idle.verdict} />
            </>
          ) : null}
          <span class="soft"> As new it would be {idle.asNew}.</span>
        </a>
      ) : idle === undefined && book.value.sheet?.oil?.circuit ? (
        <p class="pressure-line soft">Working out the oil pressure …</p>
      ) : null}
    </section>
  );
}

/** Covers that must not go on, and what is not yet tightened. */
function Held() {
  const { gates, torques } = assessed.value;
  const loose = torques.filter(({ unlogged, passes }) => unlogged.length > 0 && passes.length > 0);
  if (gates.length === 0) return null;
  return (
    <section>
      <h2>Covers</h2>
      <ul class="lines">
        {gates.map((gate) => (
          <li key={gate.cover.id}>
            <a href={hashOf(job.value ?? '', 'covers', gate.cover.id)}>
              <span class="leads">{gate.cover.name}</span>
              <span class="soft">
                {gate.closed
                  ? 'closed'
                  : gate.state === 'open'
                    ? 'may be closed'
                    : `held by ${gate.reasons.length}`}
                {gate.passed ? ', hold passed' : ''}
              </span>
            </a>
          </li>
        ))}
        <li>
          <a href={hashOf(job.value ?? '', 'loose')}>
            <span class="leads">Loose ends</span>
            <span class="soft">how it was left, openings, joints</span>
          </a>
        </li>
        {loose.map(({ fastener, unlogged }) => (
          <li key={fastener.id}>
            {fastener.name}: {unlogged.length} not proven tight
          </li>
        ))}
      </ul>
    </section>
  );
}

function Recent() {
  const now = book.value;
  const recent = [...now.entries].slice(-6).reverse();
  return (
    <section>
      <h2>Last entered</h2>
      <ul class="lines">
        {recent.map((entry) => (
          <li key={entry.id} class={now.struck.has(entry.id) ? 'struck' : undefined}>
            {entryWords(now, entry)}{' '}
            <span class="soft">
              {entry.who}, {whenWords(entry.at)}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
