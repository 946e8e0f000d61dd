import {
  type JobMatching,
  type MatchingTried,
  matchingsTried,
  matchingWords,
  type Placing,
  placeText,
  positionAt,
  sameOrder,
} from '@fettle/book';
import type { Issue, MatchingObjective } from '@fettle/core';
import { useMemo, useState } from 'preact/hooks';
import { Choice } from '../../parts/choice.tsx';
import { FoldOut } from '../../parts/fold-out.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { Mark, SmallVerdict } from '../../parts/verdict.tsx';
import { heavy } from '../../state/heavy.ts';
import { book, write } from '../../state/job.ts';

/** Which part goes where: every part tried in every place, the best order beside the order of the box. */
export function Matching() {
  const now = book.value;
  const [chosen, setChosen] = useState<string>();
  const [objective, setObjective] = useState<MatchingObjective>('sum');
  const { catalogue } = heavy.value;
  const tried = useMemo(() => matchingsTried(now, objective, catalogue), [now, objective, catalogue]);
  const ready = tried.flatMap((one) => (one.found.ok ? [{ ...one, found: one.found.value }] : []));
  const shown = ready.find((one) => keyOf(one) === chosen) ?? ready[0];
  return (
    <section class="matching">
      <h2>Which goes where</h2>
      {shown ? (
        <>
          {ready.length > 1 ? (
            <Choice
              legend="To be brought right"
              name="matched"
              options={ready.map((one) => ({ value: keyOf(one), word: wordOf(one) }))}
              value={keyOf(shown)}
              choose={setChosen}
            />
          ) : (
            <p>
              <strong>{wordOf(shown)}</strong>
            </p>
          )}
          <Choice
            legend="What counts"
            name="objective"
            options={OBJECTIVES}
            value={objective}
            choose={setObjective}
          />
          <Found key={`${keyOf(shown)} ${objective}`} found={shown.found} />
        </>
      ) : (
        <p>{matchingWords.NOTHING_MATCHED}</p>
      )}
      <Wanting tried={tried} />
    </section>
  );
}

const OBJECTIVES = [
  { value: 'sum', word: 'All together' },
  { value: 'worst', word: 'The worst pair' },
] as const;

type Named = Omit<MatchingTried, 'found'>;
const keyOf = ({ characteristic, moves }: Named): string => `${characteristic.id} ${moves}`;
const wordOf = matchingWords.matchedName;

/** What else could be matched, and what each still asks for. */
function Wanting({ tried }: { readonly tried: readonly MatchingTried[] }) {
  const wanting = tried.flatMap((one) => (one.found.ok ? [] : [{ ...one, issues: one.found.issues }]));
  if (wanting.length === 0) return null;
  return (
    <FoldOut summary={`What else could be matched, once it is measured: ${wanting.length}`}>
      {() => (
        <ul class="lines">
          {wanting.map((one) => (
            <li key={keyOf(one)}>
              <strong>{wordOf(one)}.</strong>{' '}
              {one.issues.map(({ message }) => (
                <span key={message}>{message} </span>
              ))}
            </li>
          ))}
        </ul>
      )}
    </FoldOut>
  );
}

function Found({ found }: { readonly found: JobMatching }) {
  const { best, boxed, fitted, characteristic } = found;
  return (
    <>
      <Order name="The best order" found={found} placing={best} />
      {matchingWords.matchingNotes(found).map((note) => (
        <p key={note}>{note}</p>
      ))}
      <FitThem found={found} />
      <Order name="As they lay in the box" found={found} placing={boxed} />
      {fitted && !sameOrder(best, fitted) ? (
        <Order name="As fitted now" found={found} placing={fitted} />
      ) : null}
      <h3>Every part in every place ({characteristic.unit})</h3>
      <Grid found={found} />
      <p class="soft">{matchingWords.targetWords(found)}</p>
    </>
  );
}

function Order({
  name,
  found,
  placing,
}: {
  readonly name: string;
  readonly found: JobMatching;
  readonly placing: Placing;
}) {
  return (
    <>
      <h3>{name}</h3>
      <p>
        {matchingWords.verdictWords(placing)}; {matchingWords.deviationWords(found, placing)}.
      </p>
      <ul class="lines pairs">
        {found.seats.map((seat, i) => {
          const part = placing.partOf[i]!;
          const tried = found.tried[i]![part]!;
          return (
            <li key={placeText(seat)}>
              <strong>{found.parts[part]!.name}</strong> in place {placeText(seat)}:{' '}
              {matchingWords.triedWords(found, i, part)} ±{matchingWords.doubtWords(found, tried)}{' '}
              {found.characteristic.unit} <SmallVerdict status={tried.status} />
            </li>
          );
        })}
      </ul>
    </>
  );
}

/** Rows are places, columns parts; the chosen pair of a row is framed, its verdict a shape and not a colour alone. */
function Grid({ found }: { readonly found: JobMatching }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard.
    <section class="scroll" tabIndex={0} aria-label="Every part in every place">
      <table class="tried">
        <thead>
          <tr>
            <th scope="col">Place</th>
            {found.parts.map(({ id, name }) => (
              <th key={id} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {found.seats.map((seat, i) => (
            <tr key={placeText(seat)}>
              <th scope="row">{placeText(seat)}</th>
              {found.parts.map(({ id }, j) => (
                <td key={id} class={found.best.partOf[i] === j ? 'chosen' : undefined}>
                  <Mark status={found.tried[i]![j]!.status} /> {matchingWords.triedWords(found, i, j)}
                  {found.best.partOf[i] === j ? <span class="spoken"> chosen</span> : null}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Enters the best order as fitted; never one with a pair that is out. */
function FitThem({ found }: { readonly found: JobMatching }) {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const { seats, parts, moves, best, fitted, inside } = found;
  if (!inside) return null;
  if (fitted && sameOrder(best, fitted)) return <p>They are fitted in this order.</p>;
  const fit = async (): Promise<void> => {
    const entries = await write(
      seats.map((seat, i) => ({
        kind: 'part-fitted' as const,
        body: { position: positionAt(moves, seat), part: parts[best.partOf[i]!]!.id },
      })),
    );
    setIssues(entries.ok ? [] : entries.issues);
  };
  return (
    <>
      <button type="button" onClick={() => void fit()}>
        Fit them in this order
      </button>
      <IssueLines issues={issues} />
    </>
  );
}
