import type { Status } from '@fettle/book';
import { Mark } from '../../parts/verdict.tsx';
import { hashOf } from '../../route.ts';
import { job } from '../../state/job.ts';

/** One thing to be chosen, with how it stands in a shape and in words. */
export interface Row {
  readonly id: string;
  readonly name: string;
  readonly says: string;
  /** `out` holds a cover, `in` is as it belongs, `missing` was not said. */
  readonly status: Status;
}

interface Given {
  readonly section: string;
  readonly rows: readonly Row[];
}

/** Large lines, one for each thing; a tap leads to its form. */
export function Rows({ section, rows }: Given) {
  return (
    <ul class="loose-rows">
      {rows.map(({ id, name, says, status }) => (
        <li key={id}>
          <a href={hashOf(job.value ?? '', 'loose', section, id)}>
            <Mark status={status} />
            <span>
              <strong>{name}</strong> <span class="soft">{says}</span>
            </span>
          </a>
        </li>
      ))}
    </ul>
  );
}

/** The way back from one thing to all of them. */
export function AllOf({ section, words }: { readonly section: string; readonly words: string }) {
  return (
    <a class="button" href={hashOf(job.value ?? '', 'loose', section)}>
      <span aria-hidden="true">‹{'\u00a0'}</span>
      {words}
    </a>
  );
}
