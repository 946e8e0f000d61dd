import { type Assessed, asFound, assessment, onTrial } from '@fettle/book';
import { computed, signal } from '@preact/signals';
import { heavy } from './heavy.ts';
import { assessed, book, job } from './job.ts';

/** Which engine the list shows: as fitted now, as it was found, or with another part on trial in one position. */
export type View =
  | { readonly as: 'now' }
  | { readonly as: 'found' }
  | { readonly as: 'trial'; readonly position: string; readonly part: string };

const NOW: View = { as: 'now' };
const chosen = signal<{ readonly of: string | undefined; readonly view: View }>({ of: undefined, view: NOW });

/** As chosen for the job on the bench; another job begins as it is. */
export const view = computed<View>(() => (chosen.value.of === job.value ? chosen.value.view : NOW));
export const show = (next: View): void => {
  chosen.value = { of: job.value, view: next };
};

/** The judgements of that engine. Covers and what is next always go by the engine as it is. */
export const viewed = computed<readonly Assessed[]>(() => {
  const as = view.value;
  if (as.as === 'now') return assessed.value.judgements;
  const selection = as.as === 'found' ? asFound(book.value) : onTrial(book.value, { [as.position]: as.part });
  return assessment(book.value, selection, heavy.value.catalogue).judgements;
});
