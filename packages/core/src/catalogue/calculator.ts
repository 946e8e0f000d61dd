import type { Caution, Issue } from '../issue.ts';
import type { QuantityKind } from '../units/kinds.ts';
import type { Fields, Inputs } from './field.ts';

/** An output: a quantity in SI (`alike`: of the kind the answer names), or a plain value without a unit. */
export interface OutputField {
  readonly kind: QuantityKind | 'alike' | 'value';
  readonly doc: string;
  /** What there is one of for each, by name: a record of quantities rather than one. */
  readonly each?: string;
  /** Only there when the inputs it needs were given. */
  readonly optional?: boolean;
}

/** What one calculation gives: numbers in SI under the output's key; an undefined one is left out. */
export type Answer =
  | {
      readonly results: Readonly<Record<string, unknown>>;
      readonly cautions?: readonly Caution[];
      /** Of the outputs that are `alike`. */
      readonly kind?: QuantityKind;
    }
  | { readonly issues: readonly Issue[] };

export interface Calculator<Fs extends Fields = Fields> {
  readonly name: string;
  /** What it tells, in one sentence. */
  readonly sentence: string;
  /** The formula in plain text with the symbols of its source, for showing the working. */
  readonly formula: readonly string[];
  /** Keys in `sources`. */
  readonly sources: readonly string[];
  readonly input: Fs;
  /** Groups of which exactly one must be given, whole: `[['module'], ['centre_distance']]`. */
  readonly exactlyOne?: readonly (readonly (readonly string[])[])[];
  /** Keys that come together or not at all. */
  readonly together?: readonly (readonly string[])[];
  /** Groups of which at least one key must be given. */
  readonly atLeastOne?: readonly (readonly string[])[];
  readonly output: Readonly<Record<string, OutputField>>;
  /** Where the formula holds, as printed in the help. */
  readonly range: string;
  /** An input with which the calculator answers, for help and tests. */
  readonly example: Readonly<Record<string, unknown>>;
  readonly compute: (input: Inputs<Fs>) => Answer;
}

/** Keeps the types of the fields while a calculator is written; forgets them for the catalogue. */
export function calculator<const Fs extends Fields>(definition: Calculator<Fs>): Calculator {
  return definition as unknown as Calculator;
}
