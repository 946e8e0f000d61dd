import { type Body, chestWords, stacksNear } from '@fettle/book';
import { useState } from 'preact/hooks';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { Keyed } from './keyed.tsx';

/** Which leaves to lay on one another for a gap that none of them fills. */
export function LeafStacks({ body }: { readonly body: Body<'instrument-declared'> }) {
  const [gap, setGap] = useState('');
  const [unit, setUnit] = useState(/[a-z]+$/.exec(body.leaves?.[0] ?? '')?.[0] ?? 'in');
  const stacks = gap.trim() === '' ? undefined : stacksNear(body, `${gap} ${unit}`);
  return (
    <div class="form">
      <Keyed
        fields={[{ label: 'A gap of about', text: gap, set: setGap }]}
        at={0}
        go={() => undefined}
        unit={unit}
        setUnit={setUnit}
      />
      {stacks?.ok ? (
        <>
          <ul class="lines">
            {stacks.value.map(({ leaves, thickness, doubt }) => (
              <li key={leaves}>
                <strong>{leaves}</strong> = {thickness} {doubt}
              </li>
            ))}
          </ul>
          <p class="soft">{chestWords.STACK_CAUTION}</p>
        </>
      ) : null}
      <IssueLines issues={stacks && !stacks.ok ? stacks.issues : []} />
    </div>
  );
}
