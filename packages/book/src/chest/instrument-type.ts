import type { QuantityKind } from '@fettle/core';
import type { BudgetLine } from '../ledger/bodies.ts';

/** What may be said of an instrument of a type, so that its budget is its own. */
export interface Setting {
  readonly key: string;
  /** Names it for a person. */
  readonly label: string;
  /** Kind of quantity; a choice has none. */
  readonly kind?: QuantityKind;
  readonly choices?: readonly string[];
  /** What the type usually has: for those who work in inches, and in millimetres. */
  readonly usual: readonly [inch: string, metric: string];
}

/** A setting that is a quantity; one figure where both kinds of workshop have the same. */
export const asked = (
  key: string,
  label: string,
  kind: QuantityKind,
  inch: string,
  metric: string = inch,
): Setting => ({ key, label, kind, usual: [inch, metric] });

export interface InstrumentType {
  readonly type: string;
  /** What it reads; its U is a share of the reading where `ratio`. */
  readonly reads: QuantityKind;
  readonly settings: readonly Setting[];
  /** Usually set in another instrument, or read by one. */
  readonly chained?: string;
  /** How it is checked: what against. */
  readonly check: string;
  /** Its budget from what is said of it, or why it has none. */
  readonly lines: (given: Given) => readonly BudgetLine[] | string;
}

export interface Given {
  /** SI of a setting. */
  readonly si: (key: string) => number;
  /** A setting as it was said. */
  readonly said: (key: string) => string;
  /** What comes from the instrument it is set in or read by; its own lines where none is named. */
  readonly chain: (feel: string) => readonly BudgetLine[] | string;
}
