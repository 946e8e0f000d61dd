import { parseQuantity, term, type Uncertain, uncertain } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import type { Characteristic, SpecSheet } from '../sheet/sheet.ts';

/** Mean linear expansion of a steel instrument [1/K]. @source common handbook value for carbon steel, GUM H.1 uses it */
export const STEEL = 11.5e-6;
/** Standard uncertainty of a tabulated expansion, as a share of it; assumed. */
export const EXPANSION_DOUBT = 0.05;

/** Whether the sheet says how a length of this part changes with its temperature. */
export const expands = ({ expansion, material }: Characteristic): boolean =>
  expansion !== undefined || material !== undefined;

export interface Expansion {
  /** Mean linear expansion [1/K], its doubt common to all that is of the same material. */
  readonly alpha: Uncertain;
  /** The material's id, or the position whose parts it belongs to. */
  readonly of: string;
}

/**
 * The expansion of what a characteristic is a length of: its own, or that of its material. All lengths of one material
 * have one expansion and one doubt about it; where the sheet names no material, those of one position have.
 */
export function expansionOf(book: Book, characteristic: Characteristic): Expansion | undefined {
  const { sheet } = book;
  const before = known.get(characteristic);
  if (before && before.sheet === sheet) return before.expansion;
  const expansion = readExpansion(sheet, characteristic);
  known.set(characteristic, { sheet, expansion });
  return expansion;
}

/** Read before: neither a sheet nor a characteristic is ever changed. */
const known = new WeakMap<
  Characteristic,
  { readonly sheet: SpecSheet | undefined; readonly expansion: Expansion | undefined }
>();

function readExpansion(sheet: SpecSheet | undefined, characteristic: Characteristic): Expansion | undefined {
  const { expansion, material, position, id } = characteristic;
  const made = material === undefined ? undefined : sheet?.materials?.[material];
  const read = parseQuantity(expansion ?? made?.expansion ?? '', 'expansion');
  if (!read.ok) return undefined;
  const share = made?.doubt === undefined ? undefined : parseQuantity(made.doubt, 'ratio');
  const doubt = share?.ok ? share.value.value : EXPANSION_DOUBT;
  const of = material ?? position ?? id;
  const { value } = read.value;
  return { alpha: uncertain(value, term(`expansion:${of}`, value * doubt)), of };
}

/** Of micrometers and all else that is read with: steel, and alike among themselves. */
export const INSTRUMENT_EXPANSION = uncertain(STEEL, term('expansion:instruments', STEEL * EXPANSION_DOUBT));
