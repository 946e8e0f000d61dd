import type { Issue } from '@fettle/core';
import { inOrder } from '../ledger/ledger.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import type { Characteristic, SpecSheet } from '../sheet/sheet.ts';
import type { Written } from './book.ts';

/**
 * The sheet's characteristics with the amendments made to them, one after the other in folding order.
 * Each is held to the same checks as the sheet itself: a limit whose unit does not fit, or a relation that rests on
 * nothing, must not get in by this door. One that does not fit is left out and shown. Without the sheet they wait.
 */
export function amendedCharacteristics(
  sheet: SpecSheet | undefined,
  amendments: ReadonlyMap<string, Written<'characteristic-amended'>>,
): { characteristics: Map<string, Characteristic>; problems: Issue[] } {
  const problems: Issue[] = [];
  let amended = sheet?.characteristics ?? [];
  if (sheet)
    for (const amendment of [...amendments.values()].sort((a, b) => inOrder(a.entry, b.entry))) {
      const changed = readSheet({ ...sheet, characteristics: withChange(amended, amendment.body) });
      if (changed.ok) amended = changed.value.characteristics;
      else problems.push(doesNotFit(amendment, changed.issues[0]));
    }
  return { characteristics: new Map(amended.map((c) => [c.id, c])), problems };
}

function withChange(
  characteristics: readonly Characteristic[],
  { characteristic: id, change }: Written<'characteristic-amended'>['body'],
): unknown[] {
  const known = characteristics.some((c) => c.id === id);
  return known
    ? characteristics.map((c) => (c.id === id ? { ...c, ...change, id } : c))
    : [...characteristics, { ...change, id }];
}

const doesNotFit = (amendment: Written<'characteristic-amended'>, fault: Issue | undefined): Issue => ({
  code: 'amendment/does-not-fit',
  at: amendment.entry.id,
  got: JSON.stringify(amendment.body.change).slice(0, 200),
  wanted: fault?.wanted ?? 'fields of a characteristic as in the spec sheet',
  message: `The amendment of ${amendment.body.characteristic} does not fit the sheet and is not applied: ${fault?.message ?? ''} Strike it and amend again.`,
});
