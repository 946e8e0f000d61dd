import { SectionLinks, sectionAt } from '../../parts/sections.tsx';
import { WhoLine } from '../../parts/who-line.tsx';
import { route } from '../../route.ts';
import { who } from '../../state/desk.ts';
import { book } from '../../state/job.ts';
import { Cleaning } from './cleaning.tsx';
import { Joints } from './joints.tsx';
import { Left } from './left.tsx';
import { Marks } from './marks.tsx';
import { Openings } from './openings.tsx';
import './loose.css';

const SECTIONS = [
  { name: 'left', word: 'How it was left', Part: () => <Left /> },
  { name: 'openings', word: 'Openings', Part: Openings },
  { name: 'joints', word: 'Joints', Part: Joints },
  { name: 'marks', word: 'Marks', Part: Marks },
  { name: 'cleaning', word: 'Cleaning', Part: Cleaning },
] as const;

/** Openings and joints need not be entered before they are spoken of. */
const isCounted = (section: string): boolean => section === 'openings' || section === 'joints';

/** What must not be forgotten before a cover hides it: what is in which hole, what is loose, what goes where. */
export function Loose() {
  const { name, Part } = sectionAt(SECTIONS);
  const about = route.value.rest[1];
  const isOne = about !== undefined && (isCounted(name) || book.value.parts.has(about));
  // One thing at a time: who chose one sees that alone, and the way back.
  if (isOne)
    return (
      <main class="loose">
        {who.value === '' ? <WhoLine /> : null}
        <Part />
      </main>
    );
  return (
    <main class="loose">
      <h1>Loose ends</h1>
      <SectionLinks place="loose" label="Kinds of loose ends" sections={SECTIONS} />
      <WhoLine />
      <Part />
    </main>
  );
}
