import { type Part, uncleanParts, keepingWords as words } from '@fettle/book';
import { useHandKeys } from '../../parts/hand-keys.ts';
import { Mark } from '../../parts/verdict.tsx';
import { route } from '../../route.ts';
import { book } from '../../state/job.ts';
import { enterOne, undoLast } from './entered.ts';
import { ReadBack } from './read-back.tsx';
import { AllOf, type Row, Rows } from './rows.tsx';

const STEPS = [
  { key: 'opened', word: 'Opened', says: 'every plug and passage' },
  { key: 'washed', word: 'Washed', says: 'with a brush through every passage' },
  { key: 'blown', word: 'Blown', says: 'eye shield on, never at skin' },
  { key: 'seen_through', word: 'Seen through', says: 'light through every passage' },
] as const;

/** Parts that came back machined or blasted, and what each still wants. */
export function Cleaning() {
  const about = route.value.rest[1];
  const part = about === undefined ? undefined : book.value.parts.get(about);
  if (part) return <OnePart key={part.id} part={part} />;
  const unclean = uncleanParts(book.value);
  const rows = [...book.value.parts.values()]
    .map(({ id, name, current }): Row => {
      const wanting = unclean.find((one) => one.part.id === id);
      const cleaned = book.value.cleanings.has(current.id);
      return {
        id,
        name,
        says: wanting
          ? `${wanting.blasted ? 'blasted: held until ' : 'wants to be '}${wanting.missing.join(', ')}`
          : cleaned
            ? 'proven clean as it is now'
            : 'not held: neither machined nor blasted',
        status: wanting ? 'out' : cleaned ? 'in' : 'missing',
      };
    })
    .sort((a, b) => ['out', 'in', 'missing'].indexOf(a.status) - ['out', 'in', 'missing'].indexOf(b.status));
  return (
    <section>
      <h2>Cleaning: proven for what a part is now</h2>
      <p class="caution">{words.CLEANING_CAUTION}</p>
      {rows.length === 0 ? <p>No part is entered yet.</p> : null}
      <Rows section="cleaning" rows={rows} />
      <ReadBack />
    </section>
  );
}

/** One part, one step after the other; each tap is an entry of its own. */
function OnePart({ part }: { readonly part: Part }) {
  const { current } = part;
  const wanting = uncleanParts(book.value).find((one) => one.part.id === part.id);
  const cleaned = book.value.cleanings.get(current.id)?.body;
  const is = (key: (typeof STEPS)[number]['key']): boolean => cleaned?.[key] === true;
  const next = STEPS.find(({ key }) => !is(key));
  const say = ({ key, word }: (typeof STEPS)[number]): void => {
    const done = Object.fromEntries(STEPS.map((step) => [step.key, is(step.key)])) as Record<
      typeof key,
      boolean
    >;
    done[key] = !is(key);
    void enterOne(
      { kind: 'part-cleaned', body: { part: part.id, state: current.id, ...done } },
      () => `${part.name}: ${done[key] ? '' : 'not '}${word.toLowerCase()}`,
    );
  };
  useHandKeys({
    digit: (digit) => {
      const step = STEPS[Number(digit) - 1];
      if (step) say(step);
    },
    onward: () => {
      if (next) say(next);
    },
    undo: () => void undoLast(),
  });
  return (
    <section class="loose-one">
      <AllOf section="cleaning" words="All parts" />
      <h1>
        {part.name} <span class="soft">{current.what}</span>
      </h1>
      <ul class="loose-state">
        <li>
          <Mark status={wanting ? 'out' : cleaned && !next ? 'in' : 'missing'} />{' '}
          {wanting
            ? `Not proven clean: ${wanting.missing.join(', ')} still wanted.`
            : cleaned && !next
              ? 'Proven clean as it is now.'
              : 'Not held: it was neither machined nor blasted.'}
        </li>
        {wanting?.blasted ? (
          <li class="issue">
            Blasted: grit may be in every passage. It is held until it was opened, washed, blown and seen
            through.
          </li>
        ) : null}
      </ul>
      <p class="caution">{words.CLEANING_CAUTION}</p>
      <ol class="steps">
        {STEPS.map((step) => {
          const done = is(step.key);
          return (
            <li key={step.key}>
              <button
                type="button"
                aria-pressed={done}
                class={step === next ? 'main-move' : undefined}
                onClick={() => say(step)}
              >
                <Mark status={done ? 'in' : 'missing'} /> {step.word}{' '}
                <small>{done ? 'done' : step.says}</small>
              </button>
            </li>
          );
        })}
      </ol>
      <ReadBack />
      <p class="soft keys">Keys: 1 to 4 say a step, Page Down the next one, F8 takes it back.</p>
    </section>
  );
}
