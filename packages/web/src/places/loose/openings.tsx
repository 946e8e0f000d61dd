import { type OpeningCount, openingCounts, keepingWords as words } from '@fettle/book';
import { useSignal } from '@preact/signals';
import { useState } from 'preact/hooks';
import { useHandKeys } from '../../parts/hand-keys.ts';
import { Taps } from '../../parts/taps.tsx';
import { Mark } from '../../parts/verdict.tsx';
import { route } from '../../route.ts';
import { book } from '../../state/job.ts';
import { Another } from './another.tsx';
import { enterOne, undoLast } from './entered.ts';
import { ReadBack } from './read-back.tsx';
import { AllOf, type Row, Rows } from './rows.tsx';

type Filling = 'rag' | 'plug' | 'tape' | 'cap' | 'other';
const FILLINGS: readonly { readonly value: Filling; readonly words: string }[] = [
  { value: 'rag', words: 'Rag' },
  { value: 'plug', words: 'Plug' },
  { value: 'tape', words: 'Tape' },
  { value: 'cap', words: 'Cap' },
  { value: 'other', words: 'Other' },
];

/** Holes that most engines have; what the sheet names comes first. Common practice, no source. */
const USUAL = [
  'Rod tunnels',
  'Bores',
  'Oil gallery',
  'Inlet ports',
  'Exhaust ports',
  'Water jacket',
  'Oil pump hole',
  'Spark plug holes',
];

const MOST = 1000;

interface Opening {
  readonly id: string;
  readonly name: string;
  readonly counts: readonly OpeningCount[];
}

function openingsNow(): Opening[] {
  const now = book.value;
  const counts = openingCounts(now);
  const named = new Map<string, string>((now.sheet?.openings ?? []).map(({ id, name }) => [id, name]));
  for (const { opening, name } of counts) named.set(opening, named.get(opening) ?? name);
  return [...named].map(([id, name]) => ({
    id,
    name,
    counts: counts.filter(({ opening }) => opening === id),
  }));
}

const isOff = ({ blocked, cleared }: OpeningCount): boolean => blocked !== cleared;

function rowOf({ id, name, counts }: Opening): Row {
  const off = counts.filter(isOff);
  return {
    id,
    name,
    says:
      off.length > 0
        ? off.map((count) => words.openingBalance(count)).join('; ')
        : counts.length > 0
          ? 'all counted out'
          : 'nothing counted yet',
    status: off.length > 0 ? 'out' : counts.length > 0 ? 'in' : 'missing',
  };
}

/** Plugs, rags and tape counted into each hole and out of it. */
export function Openings() {
  const about = route.value.rest[1];
  const all = openingsNow();
  const one = all.find(({ id }) => id === about);
  if (about !== undefined)
    return (
      <OneOpening key={about} opening={one ?? { id: about, name: about.replaceAll('-', ' '), counts: [] }} />
    );
  const rows = all.map(rowOf).sort((a, b) => rank(a) - rank(b));
  return (
    <section>
      <h2>Openings: what went in must come out</h2>
      <Rows section="openings" rows={rows} />
      <Another
        section="openings"
        kind="opening"
        legend="Holes that most engines have"
        usual={USUAL}
        had={all.map(({ name }) => name)}
      />
      <ReadBack />
    </section>
  );
}

const rank = ({ status }: Row): number => ['out', 'missing', 'in'].indexOf(status);

/** One hole: what it is filled with, how many, in or out. */
function OneOpening({ opening }: { readonly opening: Opening }) {
  const { id, counts } = opening;
  const name = route.value.rest[2] ?? opening.name;
  const off = counts.find(isOff) ?? counts.at(-1);
  const [by, setBy] = useState<Filling>(
    (off?.by as Filling | undefined) ?? (/plug|gallery/i.test(name) ? 'plug' : 'rag'),
  );
  const count = counts.find((one) => one.by === by);
  const wanted = count ? Math.abs(count.blocked - count.cleared) : 0;
  // What is off is what is most likely counted next.
  // A signal, for a key may come before what the last one did is drawn.
  const typed = useSignal<number | undefined>(undefined);
  const counted = (): number => typed.value ?? Math.max(1, wanted);
  const set = (value: number): void => {
    typed.value = Math.min(MOST, Math.max(1, value));
  };
  const anew = (): void => {
    typed.value = undefined;
  };
  const n = counted();
  const outIsNext = count !== undefined && count.blocked > count.cleared;
  const inIsNext = count !== undefined && count.cleared > count.blocked;
  const enter = (into: boolean): void => {
    const [count, said] = [counted(), typed.value];
    void enterOne(
      {
        kind: into ? 'opening-blocked' : 'opening-cleared',
        body: { opening: id, by, count, ...(isOnSheet(id) ? {} : { name }) },
      },
      () => `${name}: ${words.counted(count, by)} ${into ? 'in' : 'out'}`,
    ).then((made) => {
      // What was counted on since is the next entry's.
      if (made && typed.value === said) anew();
    });
  };
  useHandKeys({
    digit: (digit) =>
      set(Number(`${typed.value === undefined || typed.value >= 100 ? '' : typed.value}${digit}`)),
    more: () => set(counted() + 1),
    less: () => set(counted() - 1),
    onward: () => enter(!outIsNext),
    undo: () => void undoLast(),
  });
  const said = words.counted(n, by);
  return (
    <section class="loose-one">
      <AllOf section="openings" words="All openings" />
      <h1>{name}</h1>
      <ul class="loose-state">
        {counts.length === 0 ? <li>Nothing was counted in or out here yet.</li> : null}
        {counts.map((one) => (
          <li key={one.by}>
            <Mark status={isOff(one) ? 'out' : 'in'} /> {words.openingBalance(one)}
          </li>
        ))}
      </ul>
      <Taps
        legend="With what"
        options={FILLINGS}
        chosen={by}
        choose={(next) => {
          setBy(next);
          anew();
        }}
      />
      <fieldset class="counter">
        <legend>How many</legend>
        <button type="button" aria-label="One fewer" onClick={() => set(n - 1)}>
          −
        </button>
        <output aria-live="polite">{n}</output>
        <button type="button" aria-label="One more" onClick={() => set(n + 1)}>
          +
        </button>
      </fieldset>
      <div class="moves">
        <button type="button" class={outIsNext ? undefined : 'main-move'} onClick={() => enter(true)}>
          {said} {inIsNext ? 'back in' : 'in'}
        </button>
        <button type="button" class={outIsNext ? 'main-move' : undefined} onClick={() => enter(false)}>
          {said} out
        </button>
      </div>
      <ReadBack />
      <p class="soft keys">Keys: digits and + − count, Page Down enters the marked move, F8 takes it back.</p>
    </section>
  );
}

const isOnSheet = (opening: string): boolean =>
  (book.value.sheet?.openings ?? []).some(({ id }) => id === opening);
