import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

interface Folded {
  readonly summary: ComponentChildren;
  /** Drawn when it is opened: a sheet has a hundred forms, and one of them is wanted. */
  readonly children: () => ComponentChildren;
}

/** A line that opens. */
export function FoldOut({ summary, children }: Folded) {
  const [open, setOpen] = useState(false);
  return (
    <details open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span class="fold-words">{summary}</span>
      </summary>
      {open ? children() : null}
    </details>
  );
}
