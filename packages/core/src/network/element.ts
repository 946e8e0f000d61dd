import type { QuantityKind } from '../units/kinds.ts';
import type { Bounds } from '../units/read-quantity.ts';
import type { ElementConditions, FlowLaw } from './flow-law.ts';
import type { Piece } from './pieces.ts';

export interface LawParameter extends Bounds {
  readonly kind: QuantityKind;
  readonly doc: string;
  readonly required: boolean;
  /** Used when it was not given; a parameter that decides has none. */
  readonly fallback?: number;
}

interface LawChoice {
  readonly choices: readonly string[];
  readonly doc: string;
  readonly fallback: string;
}

/** The parameters of one element: numbers in SI by name; a missing optional one is NaN, and never reaches a formula. */
export type Parameters = Readonly<Record<string, number>>;
export type Choices = Readonly<Record<string, string>>;

interface LawInWords {
  /** What the element is, in a sentence. */
  readonly doc: string;
  readonly formula: string;
  readonly source: string;
  /** A pump pushes from the sump; everything else runs downhill. */
  readonly pump?: true;
  /** It stands beside the circuit: no ends, and no part in its balance. */
  readonly aside?: true;
  readonly parameters: Readonly<Record<string, LawParameter>>;
  readonly choices?: Readonly<Record<string, LawChoice>>;
  /** Groups of which exactly one must be given, whole. */
  readonly exactlyOne?: readonly (readonly (readonly string[])[])[];
  /** Keys that come together or not at all. */
  readonly together?: readonly (readonly string[])[];
  /** What cannot be, in words; undefined when all is well. */
  readonly fault?: (p: Parameters, choices: Choices) => { key: string; wanted: string } | undefined;
}

/**
 * A law is put together from pieces of known shape, which a thousand solves go through without a call; one that no
 * shape fits gives its flow as a function of its own.
 */
export type Law = LawInWords &
  (
    | { readonly pieces: (p: Parameters, choices: Choices) => readonly Piece[] }
    | { readonly flow: (p: Parameters, c: ElementConditions, choices: Choices) => FlowLaw }
  );

export const given = (value: number | undefined): value is number =>
  value !== undefined && !Number.isNaN(value);

export const needed = (kind: QuantityKind, doc: string, bounds: Bounds = { above: 0 }): LawParameter => ({
  kind,
  doc,
  required: true,
  ...bounds,
});

export const optional = (kind: QuantityKind, doc: string, bounds: Bounds = { above: 0 }): LawParameter => ({
  kind,
  doc,
  required: false,
  ...bounds,
});

export const fallback = (
  kind: QuantityKind,
  doc: string,
  value: number,
  bounds: Bounds = { above: 0 },
): LawParameter => ({ kind, doc, required: false, fallback: value, ...bounds });
