import type * as z from 'zod';
import type { QuantityKind } from '../units/kinds.ts';
import type { Bounds } from '../units/read-quantity.ts';

/** Bounds of an input in SI. A bound itself is allowed unless `above` or `below` is used. */
export type Range = Bounds;

interface Common {
  readonly doc: string;
  readonly required: boolean;
}

interface QuantityField extends Common {
  readonly type: 'quantity';
  readonly kind: QuantityKind;
  readonly range: Range;
  /** In SI; echoed in the results when it was used. */
  readonly fallback?: number;
}

export interface QuantitiesField extends Common {
  readonly type: 'quantities';
  readonly kind: QuantityKind;
  readonly range: Range;
}

/**
 * A quantity of any kind, the same for all such inputs of one call: what is judged may be a length or a pressure.
 * The calculator then has an input `kind`, which `compute` receives filled in.
 */
export interface AlikeField extends Common {
  readonly type: 'alike';
  readonly range: Range;
  /** A difference has no zero point: 2 °C of doubt are 2 K. */
  readonly difference: boolean;
}

interface TextField extends Common {
  readonly type: 'text';
  readonly example: string;
}

interface ChoiceField extends Common {
  readonly type: 'choice';
  readonly choices: readonly string[];
  readonly fallback?: string;
}

/** A nested structure, read by its own schema; quantities in it are read with `quantityIn` from units. */
export interface StructureField<T = unknown> extends Common {
  readonly type: 'structure';
  readonly schema: z.ZodType<T>;
}

export type Field = QuantityField | QuantitiesField | AlikeField | TextField | ChoiceField | StructureField;
export type Fields = Readonly<Record<string, Field>>;

/** What `compute` receives for a field. */
type ValueOf<F extends Field> = F extends QuantityField | AlikeField
  ? number
  : F extends QuantitiesField
    ? readonly number[]
    : F extends TextField | ChoiceField
      ? string
      : F extends StructureField<infer T>
        ? T
        : never;

type IsSure<F extends Field> = F['required'] extends true
  ? true
  : F extends { fallback: unknown }
    ? true
    : false;

export type Inputs<Fs extends Fields> = {
  readonly [K in keyof Fs]: IsSure<Fs[K]> extends true ? ValueOf<Fs[K]> : ValueOf<Fs[K]> | undefined;
};

const POSITIVE: Range = { above: 0 };

/** A required quantity; positive unless a range says otherwise. */
export const quantity = (kind: QuantityKind, doc: string, range: Range = POSITIVE) =>
  ({ type: 'quantity', kind, doc, range, required: true }) as const;

export const optionalQuantity = (kind: QuantityKind, doc: string, range: Range = POSITIVE) =>
  ({ type: 'quantity', kind, doc, range, required: false }) as const;

/** A quantity that does not decide the answer: the fallback (SI) is used and echoed. */
export const defaultedQuantity = (
  kind: QuantityKind,
  doc: string,
  fallback: number,
  range: Range = POSITIVE,
) => ({ type: 'quantity', kind, doc, range, required: false, fallback }) as const;

export const quantities = (kind: QuantityKind, doc: string, range: Range = POSITIVE) =>
  ({ type: 'quantities', kind, doc, range, required: true }) as const;

export const optionalQuantities = (kind: QuantityKind, doc: string, range: Range = POSITIVE) =>
  ({ type: 'quantities', kind, doc, range, required: false }) as const;

export const alike = (doc: string) =>
  ({ type: 'alike', doc, range: {}, required: true, difference: false }) as const;

export const optionalAlike = (doc: string) =>
  ({ type: 'alike', doc, range: {}, required: false, difference: false }) as const;

/** A spread of something alike: zero or more. */
export const alikeSpread = (doc: string) =>
  ({ type: 'alike', doc, range: { min: 0 }, required: true, difference: true }) as const;

export const text = (doc: string, example: string) =>
  ({ type: 'text', doc, example, required: true }) as const;

export const optionalText = (doc: string, example: string) =>
  ({ type: 'text', doc, example, required: false }) as const;

export const choice = <const C extends readonly string[]>(doc: string, choices: C) =>
  ({ type: 'choice', doc, choices, required: true }) as const;

export const optionalChoice = <const C extends readonly string[]>(doc: string, choices: C) =>
  ({ type: 'choice', doc, choices, required: false }) as const;

export const defaultedChoice = <const C extends readonly string[]>(
  doc: string,
  choices: C,
  fallback: C[number],
) => ({ type: 'choice', doc, choices, required: false, fallback }) as const;

export const structure = <T>(schema: z.ZodType<T>, doc: string) =>
  ({ type: 'structure', schema, doc, required: true }) as const satisfies StructureField<T>;

export const optionalStructure = <T>(schema: z.ZodType<T>, doc: string) =>
  ({ type: 'structure', schema, doc, required: false }) as const satisfies StructureField<T>;
