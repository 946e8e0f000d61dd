import type { Assessed, Status } from '@fettle/book';
import { SmallVerdict } from '../../parts/verdict.tsx';
import { assessed } from '../../state/job.ts';
import { keyOf } from '../../state/steps.ts';
import { STATUS_WORDS, valueWords } from '../../words/judgement.ts';
import { placeWords } from '../../words/place.ts';
import { hashAt } from '../measurement/going.ts';

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

/** Every judged thing by the groups of the sheet, to go to directly. */
export function Everything() {
  return (
    <section class="everything">
      <h2>Everything on the sheet</h2>
      {[...grouped(assessed.value.judgements)].map(([name, list]) => (
        <details key={name}>
          <summary>
            {name} <span class="soft">{countWords(list)}</span>
          </summary>
          <ul class="judged">
            {list.map((judgement) => (
              <Row key={keyOf(judgement.characteristic.id, judgement.place)} judgement={judgement} />
            ))}
          </ul>
        </details>
      ))}
    </section>
  );
}

function Row({ judgement }: { readonly judgement: Assessed }) {
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
        <span class="row-value">{judgement.status === 'missing' ? '' : valueWords(judgement)}</span>
        <SmallVerdict status={judgement.status} />
      </a>
    </li>
  );
}
