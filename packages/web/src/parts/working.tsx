import type { Assessed } from '@fettle/book';
import { useState } from 'preact/hooks';
import { Lazy } from './lazy.tsx';

/** The working is long, and seldom asked for: it is fetched when it is. */
const body = () => import('./working-body.tsx').then(({ WorkingBody }) => WorkingBody);

/** Where a figure comes from: formula and source, limits, readings and their entries, doubt, cautions. */
export function Working({
  judgement,
  open = false,
}: {
  readonly judgement: Assessed;
  readonly open?: boolean;
}) {
  const [shownOnce, setShownOnce] = useState(open);
  return (
    <details
      class="working"
      open={open}
      onToggle={(event) => setShownOnce((before) => before || event.currentTarget.open)}
    >
      <summary>Show the working</summary>
      {shownOnce ? <Lazy load={body} given={{ judgement }} /> : null}
    </details>
  );
}
