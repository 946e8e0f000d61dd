import type { Body, Kind, WrittenBody } from './bodies.ts';

const asWritten = <B>(body: B): B => body;

/**
 * What each kind of body is with its defaults filled in, for bodies that their schema has admitted before. The
 * compiler holds this list to the schemas: none can be forgotten, and none that has a default can stay as written.
 */
const FILLED: { readonly [K in Kind]: (body: WrittenBody<K>) => Body<K> } = {
  'job-opened': asWritten,
  'spec-adopted': asWritten,
  'characteristic-amended': asWritten,
  'instrument-declared': ({ uncertainty, ...body }) => ({
    ...body,
    uncertainty: {
      ...uncertainty,
      coverage: uncertainty.coverage ?? 2,
      common_share: uncertainty.common_share ?? 0.5,
    },
  }),
  'instrument-checked': asWritten,
  'repeat-study': asWritten,
  'readings-corrected': asWritten,
  'part-entered': asWritten,
  'part-fitted': asWritten,
  'part-reworked': (body) => ({ ...body, condition: body.condition ?? 'machined' }),
  'part-marked': asWritten,
  'part-cleaned': asWritten,
  'opening-blocked': (body) => ({ ...body, count: body.count ?? 1 }),
  'opening-cleared': (body) => ({ ...body, count: body.count ?? 1 }),
  'joint-state': asWritten,
  reading: asWritten,
  seen: asWritten,
  'gauge-reading': asWritten,
  'torque-pass': asWritten,
  'torque-decided': asWritten,
  disposition: asWritten,
  order: asWritten,
  'supply-offered': asWritten,
  'supply-wanted': asWritten,
  'terms-given': asWritten,
  'task-planned': asWritten,
  'repair-offered': ({ restores, repairs, needs, excludes, ...body }) => ({
    ...body,
    restores: (restores ?? []).map((one) => ({ ...one, judged_by: one.judged_by ?? 'new' })),
    repairs: repairs ?? [],
    needs: needs ?? [],
    excludes: excludes ?? [],
  }),
  receipt: asWritten,
  'cover-closed': asWritten,
  'cover-opened': asWritten,
  'hold-passed': asWritten,
  photo: asWritten,
  note: asWritten,
  strike: asWritten,
};

export const isKnownKind = (kind: string): kind is Kind => Object.hasOwn(FILLED, kind);

export const filledBody = <K extends Kind>(kind: K, body: Record<string, unknown>): Body<K> =>
  FILLED[kind](body as WrittenBody<K>);
