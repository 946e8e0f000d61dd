import { type Leaf, leafLadderSvg, type Picture } from '@fettle/draw';
import { useCallback, useMemo, useState } from 'preact/hooks';
import { Drawing } from './drawing.tsx';
import type { OwnedLeaf, Tried } from './leaves.ts';

/** How many rungs are shown around the one advised: more would not be reached at arm's length. */
const AROUND = 2;

function rungsShown(owned: readonly OwnedLeaf[], tried: Tried, advised: OwnedLeaf | undefined): OwnedLeaf[] {
  const touched = owned.flatMap(({ text }, i) => (tried[text] || text.includes('+') ? [i] : []));
  const middle = advised ? owned.indexOf(advised) : (touched[0] ?? owned.length >> 1);
  return owned.filter(
    (leaf, i) => Math.abs(i - middle) <= AROUND || tried[leaf.text] !== undefined || leaf.text.includes('+'),
  );
}

interface Ladder {
  readonly owned: readonly OwnedLeaf[];
  readonly tried: Tried;
  readonly advised: OwnedLeaf | undefined;
  /** Leaves chosen to be laid together. */
  readonly laying?: readonly string[] | undefined;
  readonly tap: (leaf: string) => void;
}

const STATES = { goes: 'goes', drags: 'drags', stops: 'not', untried: 'untried' } as const;

/** The leaves owned as rungs; a tap says goes, the next does not, the next that it drags, one more takes it back. */
export function LeafLadder({ owned, tried, advised, laying, tap }: Ladder) {
  const [all, setAll] = useState(false);
  const shown = useMemo(
    () => (all || laying ? [...owned] : rungsShown(owned, tried, advised)),
    [all, owned, tried, advised, laying],
  );
  const draw = useCallback(
    (picture: Picture): string =>
      leafLadderSvg(
        {
          leaves: shown.map(
            ({ text, size }): Leaf => ({
              id: text,
              thickness: size,
              text,
              state: STATES[tried[text] ?? 'untried'],
              next: laying ? laying.includes(text) : advised?.text === text,
            }),
          ),
          words: {
            goes: 'goes',
            drags: 'drags',
            not: 'does not',
            untried: '',
            next: laying ? 'together' : 'try next',
            gap: 'the gap',
          },
          tappable: true,
        },
        picture,
      ),
    [shown, tried, advised, laying],
  );
  const tapped = (event: Event): void => {
    const rung = (event.target as Element).closest<SVGElement>('[data-leaf]');
    if (rung?.dataset.leaf !== undefined) tap(rung.dataset.leaf);
  };
  return (
    <div class="ladder">
      <Drawing
        title="Feeler leaves"
        desc="Tap a leaf: it goes; again: it does not; again: it drags; again: not tried."
        draw={draw}
        widest={560}
        onClick={tapped}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' && event.key !== ' ') return;
          event.preventDefault();
          event.stopPropagation();
          tapped(event);
        }}
      />
      {owned.length > shown.length || all ? (
        <button type="button" class="quiet" onClick={() => setAll(!all)}>
          {all ? 'Only the leaves that matter' : `All ${owned.length} leaves`}
        </button>
      ) : null}
    </div>
  );
}
