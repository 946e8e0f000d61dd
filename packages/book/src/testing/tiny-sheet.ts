import { contentHash } from '../ledger/entry.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import type { SpecSheet } from '../sheet/sheet.ts';

export interface TinySheet {
  readonly sheet: SpecSheet;
  readonly hash: string;
  readonly sheets: ReadonlyMap<string, SpecSheet>;
}

/** A sheet of invented figures around what a test needs of it, held to the checks every sheet is held to. */
export function tinySheet(of: Readonly<Record<string, unknown>>): TinySheet {
  const read = readSheet({
    format: 'fettle-spec-sheet',
    version: 1,
    title: 'Tiny engine',
    documents: { made: { title: 'Made up' } },
    characteristics: [],
    ...of,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.issues, null, 1));
  const hash = contentHash(read.value);
  return { sheet: read.value, hash, sheets: new Map([[hash, read.value]]) };
}

const SOURCE = { document: 'made', trust: 'assumed' };

/** A length in inches; whatever else it has is added. */
export const inches = (id: string, more: Readonly<Record<string, unknown>> = {}) => ({
  id,
  name: id,
  kind: 'length',
  unit: 'in',
  source: SOURCE,
  ...(!('limits' in more) && { no_limits: 'none needed' }),
  ...more,
});

/** A clearance: one size less another. */
export const lessOf = (outer: string, inner: string) => ({
  linear: {
    terms: [
      { factor: 1, of: outer },
      { factor: -1, of: inner },
    ],
  },
});
