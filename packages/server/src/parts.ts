import type { DataDirectory } from '@fettle/store';
import type { Access } from './access/access.ts';
import type { JobIndex } from './job-index.ts';
import type { Report } from './report.ts';

/** What the endpoints work with. */
export interface Parts {
  readonly directory: DataDirectory;
  readonly index: JobIndex;
  readonly access: Access;
  readonly report?: Report;
  /** Folder of the built page. */
  readonly webRoot?: string;
  /** Unix time [ms]. */
  readonly now: () => number;
  readonly random: (count: number) => Uint8Array;
  /** Between two comment lines of a quiet event stream, and between two looks for what others wrote [ms]. */
  readonly beats: { readonly heartbeat: number; readonly look: number };
  /** Aborted when the server closes: streams end. */
  readonly closing: AbortSignal;
  /** Where a fault of the program itself is told; a client is told only that there was one. */
  readonly faulted: (error: unknown) => void;
  /** Where other devices find the bench. */
  readonly addresses: () => readonly string[];
}
