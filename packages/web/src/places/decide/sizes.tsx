import { jobSizes, sizesWords } from '@fettle/book';
import { useEffect, useState } from 'preact/hooks';
import { BlockShown } from '../../parts/block.tsx';
import { Choice } from '../../parts/choice.tsx';
import { IssueLines } from '../../parts/issue-lines.tsx';
import { heavy } from '../../state/heavy.ts';
import { assessed, book } from '../../state/job.ts';

const CONFIDENCES = [
  { value: 0.9, word: '90 %' },
  { value: 0.95, word: '95 %' },
  { value: 0.99, word: '99 %' },
] as const;

type Found = ReturnType<typeof jobSizes>;

/** To which sizes the parts go: one size for all bores, for all journals, to suit what was bought, and what a skim leaves. */
export function Sizes() {
  const now = book.value;
  const judged = assessed.value;
  const { catalogue, loaded } = heavy.value;
  const [confidence, setConfidence] = useState<number>(0.95);
  const [found, setFound] = useState<Found | undefined>(undefined);
  useEffect(() => {
    if (!loaded) return undefined;
    // After the tap was seen: the trials take a moment on a phone.
    const waiting = setTimeout(() => setFound(jobSizes(now, judged, catalogue, { confidence })), 0);
    return () => clearTimeout(waiting);
  }, [now, judged, catalogue, loaded, confidence]);
  const blocks = found?.ok ? sizesWords.sizeBlocks(now, found.value) : [];
  return (
    <section class="sizes">
      <h2>Sizes</h2>
      <Choice
        legend="A size must clean up with a chance of"
        name="confidence"
        options={CONFIDENCES}
        value={confidence}
        choose={setConfidence}
      />
      {found === undefined ? <p class="soft">Working it out …</p> : null}
      {found && !found.ok ? <IssueLines issues={found.issues} /> : null}
      {found?.ok && blocks.length === 0 ? <p>{sizesWords.NO_SIZES}</p> : null}
      {blocks.map((block) => (
        <BlockShown key={block.title} block={block} />
      ))}
    </section>
  );
}
