import { SectionLinks, sectionAt } from '../../parts/sections.tsx';
import { WhoLine } from '../../parts/who-line.tsx';
import { book } from '../../state/job.ts';
import { Instruments } from './instruments.tsx';
import { Limits } from './limits.tsx';
import { Parts } from './parts.tsx';
import { StoryAndNotes } from './story.tsx';
import { UnitsAndFiles } from './units-and-files.tsx';

const SECTIONS = [
  { name: 'limits', word: 'Limits', Part: Limits },
  { name: 'instruments', word: 'Instruments', Part: Instruments },
  { name: 'parts', word: 'Parts', Part: Parts },
  { name: 'story', word: 'Story', Part: StoryAndNotes },
  { name: 'units', word: 'Units, files', Part: UnitsAndFiles },
] as const;

/** What the engine is measured by, with what, and what is known of it besides. */
export function Sheet() {
  const { Part } = sectionAt(SECTIONS);
  return (
    <main class="sheet">
      <h1>{book.value.sheet?.title ?? 'The sheet'}</h1>
      <SectionLinks place="sheet" label="Parts of the sheet" sections={SECTIONS} />
      <WhoLine />
      <Part />
    </main>
  );
}
