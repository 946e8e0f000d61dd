import { SectionLinks, sectionAt } from '../../parts/sections.tsx';
import { WhoLine } from '../../parts/who-line.tsx';
import { Matching } from './matching.tsx';
import { Orders } from './orders.tsx';

const SECTIONS = [
  { name: 'matching', word: 'Matching', Part: Matching },
  { name: 'orders', word: 'Orders', Part: Orders },
] as const;

/** What becomes of the parts: to which size, with which partner, at what cost and by when. */
export function Decide() {
  const { Part } = sectionAt(SECTIONS);
  return (
    <main class="sheet">
      <h1>What becomes of the parts</h1>
      <SectionLinks place="decide" label="Parts of the deciding" sections={SECTIONS} />
      <WhoLine />
      <Part />
    </main>
  );
}
