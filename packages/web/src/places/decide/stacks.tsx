import { jobStack, placesAsked, placeText, type StackAsked, stacksOf, stackWords } from '@fettle/book';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { BlockShown } from '../../parts/block.tsx';
import { Choice } from '../../parts/choice.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { heavy } from '../../state/heavy.ts';
import { book } from '../../state/job.ts';

type By = NonNullable<StackAsked['by']>;
type Shape = NonNullable<StackAsked['shape']>;

const WAYS: readonly { readonly value: By; readonly word: string }[] = [
  { value: 'drawing', word: 'Limits for new parts' },
  { value: 'measured', word: 'As measured' },
];
const SHAPES: readonly { readonly value: Shape; readonly word: string }[] = [
  { value: 'rectangular', word: 'Evenly' },
  { value: 'triangular', word: 'Mostly near the middle' },
  { value: 'normal', word: 'Normal' },
];

/** What sizes add up to: worst case, root-sum-square and drawn, and which tolerance to tighten. */
export function Stacks() {
  const now = book.value;
  const { catalogue, loaded } = heavy.value;
  const all = useMemo(() => (loaded ? stacksOf(now, catalogue) : undefined), [now, catalogue, loaded]);
  const [id, setId] = useState<string | undefined>(undefined);
  const chosen = all?.find(({ characteristic }) => characteristic.id === id) ?? all?.[0];
  return (
    <section class="stacks">
      <h2>Stack-ups</h2>
      {all === undefined ? <p class="soft">Working it out …</p> : null}
      {all?.length === 0 ? <p>{stackWords.NO_STACKS}</p> : null}
      {all && chosen ? (
        <>
          <label class="form wide-choice">
            What adds up
            <select
              value={chosen.characteristic.id}
              onChange={({ currentTarget }) => setId(currentTarget.value)}
            >
              {all.map(({ characteristic }) => (
                <option key={characteristic.id} value={characteristic.id}>
                  {characteristic.name}
                </option>
              ))}
            </select>
          </label>
          <Chosen key={chosen.characteristic.id} id={chosen.characteristic.id} ways={chosen.by} />
        </>
      ) : null}
    </section>
  );
}

function Chosen({ id, ways }: { readonly id: string; readonly ways: readonly By[] }) {
  const now = book.value;
  const { catalogue } = heavy.value;
  const [by, setBy] = useState<By>(ways[0]!);
  const [shape, setShape] = useState<Shape>('rectangular');
  const [at, setAt] = useState<string | undefined>(undefined);
  const [found, setFound] = useState<ReturnType<typeof jobStack> | undefined>(undefined);
  const characteristic = now.characteristics.get(id)!;
  const places = useMemo(() => placesAsked(now, characteristic), [now, characteristic]);
  const place = places.find((one) => placeText(one) === at);
  useEffect(() => {
    const waiting = setTimeout(
      () => setFound(jobStack(now, { characteristic: id, by, shape, ...(place && { place }) }, catalogue)),
      0,
    );
    return () => clearTimeout(waiting);
  }, [now, id, by, shape, place, catalogue]);
  return (
    <>
      {ways.length > 1 ? (
        <Choice legend="By" name="stack-by" options={WAYS} value={by} choose={setBy} />
      ) : null}
      {by === 'drawing' ? (
        <Choice
          legend="Between its limits a size lies"
          name="stack-shape"
          options={SHAPES}
          value={shape}
          choose={setShape}
        />
      ) : null}
      {by === 'measured' && places.length > 1 ? (
        <label class="form wide-choice">
          Where
          <select value={at ?? ''} onChange={({ currentTarget }) => setAt(currentTarget.value || undefined)}>
            <option value="">where it is nearest to being out</option>
            {places.map((one) => (
              <option key={placeText(one)} value={placeText(one)}>
                {placeText(one)}
              </option>
            ))}
          </select>
        </label>
      ) : null}
      {found === undefined ? <p class="soft">Working it out …</p> : null}
      {found && !found.ok ? <IssueLines issues={found.issues} /> : null}
      {found?.ok ? <BlockShown block={stackWords.stackBlock(now, found.value)} /> : null}
    </>
  );
}
