import type { Assessed, Status } from '@fettle/book';
import { Lazy } from '../../parts/lazy.tsx';
import { SmallVerdict } from '../../parts/verdict.tsx';
import { judgementAt, keyOf } from '../../state/steps.ts';
import { view, viewed } from '../../state/view.ts';
import { STATUS_WORDS, valueWords } from '../../words/judgement.ts';
import { placeWords } from '../../words/place.ts';
import { hashAt } from '../measurement/going.ts';

/** Fetched after what is next is shown: it stands far below. */
const viewChoice = () => import('./view-choice.tsx').then(({ ViewChoice }) => ViewChoice);

function grouped(judgements: readonly Assessed[]): Map<string, Assessed[]> {
  const groups = new Map<string, Assessed[]>();
  for (const judgement of judgements) {
    const name = judgement.characteristic.group ?? 'Other';
    groups.set(name, [...(groups.get(name) ?? []), judgement]);
  }
  return groups;
}

const COUNTED: readonly Status[] = ['out', 'cannot-tell', 'missing', 'in'];

function countWords(list: readonly Assessed[]): string {
  return COUNTED.map((status) => ({ status, count: list.filter((one) => one.status === status).length }))
    .filter(({ count }) => count > 0)
    .map(({ status, count }) => `${count} ${STATUS_WORDS[status].toLowerCase()}`)
    .join(', ');
}

/** Every judged thing by the groups of the sheet, to go to directly; of the engine as it is now, or as another. */
export function Everything() {
  const judgements = viewed.value;
  const isNow = view.value.as === 'now';
  return (
    <section class="everything">
      <h2>Everything on the sheet</h2>
      <Lazy load={viewChoice} given={{}} />
      {[...grouped(judgements)].map(([name, list]) => (
        <details key={name}>
          <summary>
            {name} <span class="soft">{countWords(list)}</span>
          </summary>
          <ul class="judged">
            {list.map((judgement) => (
              <Row
                key={keyOf(judgement.characteristic.id, judgement.place)}
                judgement={judgement}
                now={isNow ? undefined : judgementAt(judgement.characteristic, judgement.place)}
              />
            ))}
          </ul>
        </details>
      ))}
    </section>
  );
}

interface Judged {
  readonly judgement: Assessed;
  /** How the same stands in the engine as it is, where another is shown. */
  readonly now: Assessed | undefined;
}

function Row({ judgement, now }: Judged) {
  const { characteristic } = judgement;
  // Judged together over several places, it opens at the worst of them, else at the first.
  const place = judgement.worstAt ?? judgement.members[0]?.place ?? judgement.place;
  const at = placeWords(characteristic, judgement.place);
  return (
    <li>
      <a href={hashAt({ characteristic, place })}>
        <span class="row-name">
          {characteristic.name}
          {at === '' ? '' : `, ${at}`}
        </span>
        <span class="row-value">
          {judgement.status === 'missing' ? '' : valueWords(judgement)}
          {now && now.status !== judgement.status ? (
            <small> now {STATUS_WORDS[now.status].toLowerCase()}</small>
          ) : null}
        </span>
        <SmallVerdict status={judgement.status} />
      </a>
    </li>
  );
}
