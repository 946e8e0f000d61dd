import { WhoLine } from '../../parts/who-line.tsx';
import { hashOf, route } from '../../route.ts';
import { book, job } from '../../state/job.ts';
import { Instruments } from './instruments.tsx';
import { Limits } from './limits.tsx';
import { Orders } from './orders.tsx';
import { Parts } from './parts.tsx';
import { StoryAndNotes } from './story.tsx';
import { UnitsAndFiles } from './units-and-files.tsx';

const SECTIONS = [
  { name: 'limits', word: 'Limits', Part: Limits },
  { name: 'instruments', word: 'Instruments', Part: Instruments },
  { name: 'parts', word: 'Parts', Part: Parts },
  { name: 'orders', word: 'Orders', Part: Orders },
  { name: 'story', word: 'Story', Part: StoryAndNotes },
  { name: 'units', word: 'Units, files', Part: UnitsAndFiles },
] as const;

/** What the engine is measured by, with what, and what is known of it besides. */
export function Sheet() {
  const at = route.value.rest[0];
  const section = SECTIONS.find(({ name }) => name === at) ?? SECTIONS[0];
  const { Part } = section;
  return (
    <main class="sheet">
      <h1>{book.value.sheet?.title ?? 'The sheet'}</h1>
      <nav aria-label="Parts of the sheet">
        <ul class="sections">
          {SECTIONS.map(({ name, word }) => (
            <li key={name}>
              <a
                class="button"
                href={hashOf(job.value ?? '', 'sheet', name)}
                aria-current={name === section.name ? 'true' : undefined}
              >
                {word}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <WhoLine />
      <Part />
    </main>
  );
}
