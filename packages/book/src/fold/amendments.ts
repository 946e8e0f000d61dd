import type { Issue, Outcome } from '@fettle/core';
import type { Body } from '../ledger/bodies.ts';
import { inOrder } from '../ledger/ledger.ts';
import type { Characteristic, SpecSheet } from '../sheet/sheet.ts';
import type { Written } from './book.ts';

type Amendment = Body<'characteristic-amended'>;

/**
 * How a spec sheet is read: `readSheet`, as a rule. It is handed in, because it knows every calculator and the oil
 * network, and a page that has no amendment to fold need not load those before it can show anything.
 */
export type SheetReader = (value: unknown) => Outcome<SpecSheet>;

/**
 * The sheet with one amendment made, held to the same checks as the sheet itself: a limit whose unit does not fit, or a
 * relation that rests on nothing, must not get in by this door. The door of entry and the fold both ask here.
 *
 * A document named in an amendment needs no entry on the sheet: its name is what is known of it.
 */
export function amendedSheet(
  sheet: SpecSheet,
  { characteristic: id, change }: Amendment,
  readSheet: SheetReader,
): Outcome<SpecSheet> {
  const named = [...documentsIn(change)].filter((document) => !Object.hasOwn(sheet.documents, document));
  const known = sheet.characteristics.some((c) => c.id === id);
  return readSheet({
    ...sheet,
    documents: { ...sheet.documents, ...Object.fromEntries(named.map((title) => [title, { title }])) },
    characteristics: known
      ? sheet.characteristics.map((c) => (c.id === id ? { ...c, ...change, id } : c))
      : [...sheet.characteristics, { ...change, id }],
  });
}

/** The documents a change names as its sources. */
export function* documentsIn(value: unknown): Generator<string> {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value))
    if (key === 'document' && typeof inner === 'string') yield inner;
    else yield* documentsIn(inner);
}

/**
 * The sheet's characteristics with the amendments made to them, one after the other in folding order.
 * One that does not fit is left out and shown. Without the sheet they wait.
 */
export function amendedCharacteristics(
  sheet: SpecSheet | undefined,
  amendments: ReadonlyMap<string, Written<'characteristic-amended'>>,
  readSheet: SheetReader,
): { characteristics: Map<string, Characteristic>; problems: Issue[] } {
  const problems: Issue[] = [];
  let amended = sheet;
  for (const amendment of [...amendments.values()].sort((a, b) => inOrder(a.entry, b.entry))) {
    if (!amended) break;
    const changed = amendedSheet(amended, amendment.body, readSheet);
    if (changed.ok) amended = changed.value;
    else problems.push(doesNotFit(amendment, changed.issues[0]));
  }
  return { characteristics: new Map(amended?.characteristics.map((c) => [c.id, c])), problems };
}

const doesNotFit = (amendment: Written<'characteristic-amended'>, fault: Issue | undefined): Issue => ({
  code: 'amendment/does-not-fit',
  at: amendment.entry.id,
  got: JSON.stringify(amendment.body.change).slice(0, 200),
  wanted: fault?.wanted ?? 'fields of a characteristic as in the spec sheet',
  message: `The amendment of ${amendment.body.characteristic} does not fit the sheet and is not applied: ${fault?.message ?? ''} Strike it and amend again.`,
});
