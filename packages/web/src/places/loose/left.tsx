import {
  asOfWords,
  isQuiet,
  type MorningLine,
  type MorningSection,
  momentWords,
  morningCard,
  morningSections,
  QUIET,
} from '@fettle/book';
import { hashOf } from '../../route.ts';
import { clock, deviceZone } from '../../state/clock.ts';
import { assessed, book, job } from '../../state/job.ts';
import './loose.css';

/** How the engine was left, by the device's clock; each line leads to the form that settles it. */
export function Left({ done }: { readonly done?: () => void }) {
  const now = clock.value;
  const zone = deviceZone();
  const card = morningCard(book.value, assessed.value.gates, now);
  // Nothing to heed is no reason to push the next reading off a phone.
  if (done && isQuiet(card)) return <p class="soft">{QUIET}</p>;
  const sections = morningSections(book.value, card, { now, zone });
  return (
    <section class="left-card" aria-labelledby="left-title">
      <h2 id="left-title">{asOfWords(momentWords(now, zone))}</h2>
      {isQuiet(card) ? <p>{QUIET}</p> : null}
      {sections.map((section) => (
        <Section key={section.heading} section={section} />
      ))}
      <div class="row">
        {done ? (
          <button type="button" class="main-move" id="left-seen" onClick={done}>
            Seen, go on
          </button>
        ) : null}
        {(['a4', 'letter'] as const).map((paper) => (
          <a
            key={paper}
            class="button"
            href={`./api/jobs/${job.value ?? ''}/morning-card.pdf?paper=${paper}&zone=${encodeURIComponent(zone)}`}
            target="_blank"
            rel="noreferrer"
          >
            On paper, {paper === 'a4' ? 'A4' : 'Letter'}
          </a>
        ))}
      </div>
    </section>
  );
}

function Section({ section: { heading, settles, lines, caution } }: { readonly section: MorningSection }) {
  return (
    <>
      <h3>{heading}</h3>
      <ul class="loose-rows">
        {lines.map((line) => (
          <li key={line.words}>
            <a href={hrefOf(settles, line)}>
              <span>{line.words}</span>
            </a>
          </li>
        ))}
      </ul>
      {caution === undefined ? null : <p class="caution">{caution}</p>}
    </>
  );
}

function hrefOf(settles: MorningSection['settles'], { about }: MorningLine): string {
  const at = about === undefined ? [] : [about];
  const id = job.value ?? '';
  if (settles === 'readings') return hashOf(id, 'sheet', 'instruments');
  return settles === 'covers' ? hashOf(id, 'covers', ...at) : hashOf(id, 'loose', settles, ...at);
}
