import { Lazy } from '../../parts/lazy.tsx';
import { SectionLinks, sectionAt } from '../../parts/sections.tsx';
import { WhoLine } from '../../parts/who-line.tsx';
import { Matching } from './matching.tsx';
import { Orders } from './orders.tsx';

// Each is fetched when it is first wanted: the plan, the basket and the time line bring solvers with them.
const decisions = async () => (await import('./decisions.tsx')).Decisions;
const basket = async () => (await import('./basket.tsx')).Basket;
const slip = async () => (await import('./slip.tsx')).Slip;
const sizes = async () => (await import('./sizes.tsx')).Sizes;
const stacks = async () => (await import('./stacks.tsx')).Stacks;
const timeLine = async () => (await import('./time-line.tsx')).TimeLine;

const SECTIONS = [
  { name: 'decisions', word: 'Decisions', Part: () => <Lazy load={decisions} given={{}} /> },
  { name: 'matching', word: 'Matching', Part: Matching },
  { name: 'sizes', word: 'Sizes', Part: () => <Lazy load={sizes} given={{}} /> },
  { name: 'stacks', word: 'Stack-ups', Part: () => <Lazy load={stacks} given={{}} /> },
  { name: 'basket', word: 'Basket', Part: () => <Lazy load={basket} given={{}} /> },
  { name: 'slip', word: 'Shop slip', Part: () => <Lazy load={slip} given={{}} /> },
  { name: 'time-line', word: 'Time line', Part: () => <Lazy load={timeLine} given={{}} /> },
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
