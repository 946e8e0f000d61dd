import { threadFrom } from '@fettle/core';
import { placesFaults } from './axis-faults.ts';
import { type Faults, listed } from './fault.ts';
import { isMeantBy } from './id-pattern.ts';
import type { SpecSheet } from './sheet.ts';

export function coverFaults(sheet: SpecSheet, faults: Faults): void {
  faults.unique(
    sheet.covers.map(({ id }) => id),
    (i) => ['covers', i, 'id'],
    'cover',
  );
  const known = {
    characteristics: sheet.characteristics.map(({ id }) => id),
    fasteners: sheet.fasteners.map(({ id }) => id),
  };
  const byOrder = new Map<number, string>();
  for (const [i, cover] of sheet.covers.entries()) {
    const before = byOrder.get(cover.order);
    if (before !== undefined)
      faults.add(
        'cover-order',
        ['covers', i, 'order'],
        String(cover.order),
        'a number no other cover has',
        `Covers ${before} and ${cover.id} both go on as number ${cover.order}. Say which goes on first.`,
      );
    byOrder.set(cover.order, before ?? cover.id);
    for (const what of ['characteristics', 'fasteners'] as const)
      for (const [j, pattern] of cover.hides[what].entries())
        if (!known[what].some((id) => isMeantBy(pattern, id)))
          faults.add(
            'cover-hides-nothing',
            ['covers', i, 'hides', what, j],
            pattern,
            `an id of ${what}, or its beginning and .*`,
            `Cover ${cover.id} hides "${pattern}", which fits none of the sheet's ${what}. Correct it, or take it out.`,
          );
  }
}

/** A thread of a form that is not known here may stand on a sheet: it is kept, named unknown and never reckoned with. */
function threadFaults(
  text: string | undefined,
  at: readonly (string | number)[],
  fastener: string,
  faults: Faults,
): void {
  const thread = text === undefined ? undefined : threadFrom(text);
  if (thread === undefined || thread.ok) return;
  for (const { code, got, wanted, message } of thread.issues)
    if (code !== 'thread/unknown-form') faults.add('thread', at, got, wanted, `${fastener}: ${message}`);
}

export function fastenerFaults(sheet: SpecSheet, faults: Faults): void {
  faults.unique(
    sheet.fasteners.map(({ id }) => id),
    (i) => ['fasteners', i, 'id'],
    'fastener',
  );
  for (const [i, f] of sheet.fasteners.entries()) {
    const path = ['fasteners', i];
    placesFaults(sheet, f.places, [...path, 'places'], `Fastener ${f.id}`, faults);
    const lower = faults.quantity(f.torque.lower, 'torque', [...path, 'torque', 'lower'], `${f.id}, torque`);
    const upper = faults.quantity(f.torque.upper, 'torque', [...path, 'torque', 'upper'], `${f.id}, torque`);
    if (lower !== undefined && lower <= 0)
      faults.add(
        'torque-sign',
        [...path, 'torque', 'lower'],
        f.torque.lower,
        'above zero',
        `${f.id}: a torque of ${f.torque.lower} tightens nothing. Correct it.`,
      );
    if (lower !== undefined && upper !== undefined && lower > upper)
      faults.add(
        'limits-crossed',
        [...path, 'torque'],
        `lower ${f.torque.lower}, upper ${f.torque.upper}`,
        'lower at or under upper',
        `${f.id}: the lower torque is above the upper one. Exchange or correct them.`,
      );
    for (const [j, position] of (f.clamps ?? []).entries())
      if (!sheet.positions.some(({ id }) => id === position))
        faults.add(
          'fastener-clamps',
          [...path, 'clamps', j],
          position,
          listed(sheet.positions.map(({ id }) => id)),
          `${f.id} clamps "${position}", which is no position of the sheet. Name one as it stands there, or take it out.`,
        );
    threadFaults(f.thread, [...path, 'thread'], f.id, faults);
    threadFaults(f.into?.thread, [...path, 'into', 'thread'], f.id, faults);
    for (const [key, kind] of [
      ['engagement', 'length'],
      ['tensile_strength', 'pressure'],
    ] as const) {
      const at = [...path, 'into', key];
      const value = faults.quantity(f.into?.[key], kind, at, `${f.id}, ${key}`);
      if (value !== undefined && value <= 0)
        faults.add(
          'hole-figure-sign',
          at,
          f.into?.[key] ?? '',
          'above zero',
          `${f.id}: ${key} must be above zero. Correct it.`,
        );
    }
  }
}

/** Every source must name a document of the sheet. */
export function documentFaults(sheet: SpecSheet, faults: Faults): void {
  const check = (
    source: { document: string } | undefined,
    path: readonly (string | number)[],
    subject: string,
  ): void => {
    if (source && !Object.hasOwn(sheet.documents, source.document))
      faults.add(
        'unknown-document',
        [...path, 'source', 'document'],
        source.document,
        listed(Object.keys(sheet.documents)),
        `${subject} comes from the document "${source.document}", which the sheet does not list. Add it to documents, or name one of ${listed(Object.keys(sheet.documents))}.`,
      );
  };
  for (const [i, c] of sheet.characteristics.entries()) {
    const path = ['characteristics', i];
    check(c.source, path, c.id);
    check(c.limits?.new?.source, [...path, 'limits', 'new'], `${c.id}, new limits`);
    check(c.limits?.wear?.source, [...path, 'limits', 'wear'], `${c.id}, wear limits`);
    for (const set of ['new', 'wear'] as const)
      for (const [bound, source] of Object.entries(c.limits?.[set]?.sources ?? {}))
        check(source, [...path, 'limits', set, 'sources', bound], `${c.id}, ${set} limits, ${bound}`);
  }
  for (const [i, f] of sheet.fasteners.entries()) check(f.source, ['fasteners', i], f.id);
  for (const [i, p] of (sheet.oil?.pressures ?? []).entries())
    check(p.source, ['oil', 'pressures', i], `Oil pressure ${i + 1}`);
  check(sheet.oil?.priming?.source, ['oil', 'priming'], 'Priming');
}
