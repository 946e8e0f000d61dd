import { type Caution, type Outcome, ok } from '@fettle/core';
import { LISTED_FIELDS } from './csv-from-sheet.ts';
import type { SheetFromCsv } from './csv-to-sheet.ts';
import { readSheet } from './read-sheet.ts';
import type { Characteristic, LimitSet, SpecSheet } from './sheet.ts';

const sameLimits = (one: LimitSet, other: LimitSet): boolean =>
  one.lower === other.lower && one.upper === other.upper && one.target === other.target;

/** A limit set as listed; where its numbers did not change it keeps the source of its own. */
function limitSet(before: LimitSet | undefined, listed: LimitSet | undefined, wear: boolean) {
  if (!listed) return undefined;
  // A list has no column for the target of worn parts.
  const set = wear && before?.target !== undefined ? { ...listed, target: before.target } : listed;
  return before?.source && sameLimits(before, set) ? { ...set, source: before.source } : set;
}

/** What the list says of a characteristic, over what the sheet knows of it and a list has no column for. */
function merged(before: Characteristic, listed: Characteristic): Record<string, unknown> {
  const kept = Object.entries(before).filter(([key]) => !LISTED_FIELDS.has(key));
  const fresh = limitSet(before.limits?.new, listed.limits?.new, false);
  const wear = limitSet(before.limits?.wear, listed.limits?.wear, true);
  const limits = fresh || wear ? { ...(fresh && { new: fresh }), ...(wear && { wear }) } : undefined;
  const all = { ...Object.fromEntries(kept), ...listed, limits };
  return Object.fromEntries(
    Object.entries(all).filter(
      // Limits that are given end the reason why there are none.
      ([key, value]) => value !== undefined && !(key === 'no_limits' && limits !== undefined),
    ),
  );
}

/**
 * A sheet with a plain list from a spreadsheet written into it. The list decides what it has columns for; what it has
 * none for (relations, covers, fasteners, oil system, crank) and rows it does not have stay as they were.
 */
export function sheetWithList(
  sheet: SpecSheet,
  { sheet: list, cautions }: SheetFromCsv,
): Outcome<SheetFromCsv> {
  const listed = new Map(list.characteristics.map((one) => [one.id, one]));
  const known = new Set(sheet.characteristics.map(({ id }) => id));
  const unlisted = sheet.characteristics.filter(({ id }) => !listed.has(id));
  const positions = new Set(sheet.positions.map(({ id }) => id));
  const read = readSheet({
    ...sheet,
    documents: {
      ...sheet.documents,
      ...Object.fromEntries(
        Object.entries(list.documents).map(([id, document]) => [id, { ...sheet.documents[id], ...document }]),
      ),
    },
    axes: { ...sheet.axes, ...list.axes },
    positions: [...sheet.positions, ...list.positions.filter(({ id }) => !positions.has(id))],
    characteristics: [
      ...sheet.characteristics.map((before) => {
        const said = listed.get(before.id);
        return said ? merged(before, said) : before;
      }),
      ...list.characteristics.filter(({ id }) => !known.has(id)),
    ],
  });
  if (!read.ok) return read;
  const names = unlisted.map(({ id }) => id);
  const kept: Caution = {
    code: 'csv/rows-kept',
    message: `${names.length} characteristics are not in the list and stay as they were: ${names.slice(0, 8).join(', ')}${names.length > 8 ? ' …' : ''}.`,
  };
  return ok({ sheet: read.value, cautions: [...cautions, ...(names.length > 0 ? [kept] : [])] });
}
