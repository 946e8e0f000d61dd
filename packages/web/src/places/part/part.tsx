import { judgementsOfPart, partSought, tagOf, tagWords } from '@fettle/book';
import { SmallVerdict } from '../../parts/verdict.tsx';
import { hashOf, route } from '../../route.ts';
import { assessed, book, job } from '../../state/job.ts';
import { valueWords } from '../../words/judgement.ts';
import { placeWords } from '../../words/place.ts';
import { hashAt } from '../measurement/going.ts';
import { FindPart } from './find-part.tsx';

/** One part, as its tag leads to it: where it belongs, how it stands, and what is to be read on it. */
export function PartPlace() {
  const now = book.value;
  const sought = partSought(now, route.value.rest[0] ?? '');
  if (!sought.ok)
    return (
      <main class="part">
        <h1>No such part</h1>
        <p class="issue">{sought.issues[0]?.message}</p>
        <FindPart />
      </main>
    );
  const part = sought.value;
  const tag = tagOf(now, part);
  const own = judgementsOfPart(now, part.id, assessed.value.judgements);
  const tags = `./api/jobs/${job.value ?? ''}/tags.pdf?component=${encodeURIComponent(part.id)}`;
  return (
    <main class="part">
      <h1>{tagWords.plainName(part)}</h1>
      <ul class="lines">
        {tagWords.tagLines(tag).map((line, i) => (
          <li key={line}>
            {i === 0 ? (
              <>
                <strong>{tag.short}</strong> <span class="soft">{part.id}</span>
              </>
            ) : (
              line
            )}
          </li>
        ))}
        <li>{tagWords.stateWords(part)}</li>
        <li>{tagWords.decidedWords(now, part)}</li>
      </ul>
      <p class="row">
        <a class="button" href={`${tags}&paper=a4`} target="_blank" rel="noreferrer">
          Its tag, A4
        </a>
        <a class="button" href={`${tags}&paper=letter`} target="_blank" rel="noreferrer">
          Its tag, Letter
        </a>
        <a class="button" href={hashOf(job.value ?? '', 'loose', 'marks', part.id)}>
          How it stands
        </a>
        <a class="button" href={hashOf(job.value ?? '', 'loose', 'cleaning', part.id)}>
          Its cleaning
        </a>
        <a class="button" href={hashOf(job.value ?? '', 'sheet')}>
          The sheet
        </a>
      </p>
      <h2>Measured on it</h2>
      {own.length === 0 ? (
        <p>
          {tag.belongs?.by === 'fitted'
            ? 'The sheet asks nothing of this part by itself.'
            : 'It is fitted nowhere, so nothing is judged of it now. Its earlier readings are kept.'}
        </p>
      ) : (
        <ul class="judged">
          {own.map((judgement) => {
            const { characteristic } = judgement;
            const place = judgement.worstAt ?? judgement.members[0]?.place ?? judgement.place;
            const at = placeWords(characteristic, judgement.place);
            return (
              <li key={`${characteristic.id}@${at}`}>
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
          })}
        </ul>
      )}
      <FindPart />
    </main>
  );
}
