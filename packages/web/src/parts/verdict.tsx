import type { Status } from '@fettle/book';
import { type VerdictMark, verdictMarkSvg } from '@fettle/draw';
import { STATUS_WORDS } from '../words/judgement.ts';

const MARKS: Readonly<Record<Status, VerdictMark>> = {
  in: 'in',
  out: 'out',
  'cannot-tell': 'cannot-tell',
  missing: 'not-read',
  'no-limits': 'not-read',
};

/** The shape of a verdict; its word always stands beside it, so the shape itself is silent. */
export function Mark({ status }: { readonly status: Status }) {
  const svg = verdictMarkSvg(MARKS[status], { title: '', desc: '', width: 64, profile: 'desk' });
  return <span class="mark" aria-hidden="true" dangerouslySetInnerHTML={{ __html: svg }} />;
}

/** The verdict to be read from across the bench: a word and a shape. */
export function Verdict({ status }: { readonly status: Status }) {
  return (
    <div class={`verdict verdict-${status}`} role="status" aria-live="polite" aria-atomic="true">
      <Mark status={status} />
      <span class="verdict-word">{STATUS_WORDS[status]}</span>
    </div>
  );
}

/** A verdict inside a row. */
export function SmallVerdict({ status }: { readonly status: Status }) {
  return (
    <span class="small-verdict">
      <Mark status={status} /> <span>{STATUS_WORDS[status]}</span>
    </span>
  );
}
