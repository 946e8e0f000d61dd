import type { Caution, Issue } from '../issue.ts';
import { QUANTITY_KINDS, type QuantityKind } from '../units/kinds.ts';
import type { BareNumbers } from '../units/read-quantity.ts';
import type { Calculator } from './calculator.ts';
import type { Fields, Inputs } from './field.ts';
import { readInput } from './read-input.ts';

export interface Result {
  readonly value: unknown;
  /** UCUM, SI; absent when the result is not a quantity. */
  readonly unit?: string;
}

export type Answered =
  | {
      readonly results: Readonly<Record<string, Result>>;
      readonly cautions: readonly Caution[];
      /** Keys of the published sources. */
      readonly sources: readonly string[];
    }
  | { readonly issues: readonly Issue[] };

/** What a calculator says to any input whatever: results in SI, or what to put right. It never throws. */
export function answered(calculator: Calculator, raw: unknown, reading: BareNumbers): Answered {
  const input = readInput(calculator, raw, reading);
  if (!input.ok) return { issues: input.issues };
  let answer: ReturnType<Calculator['compute']>;
  try {
    answer = calculator.compute(input.value);
  } catch (error) {
    return { issues: [ownFault(calculator, error)] };
  }
  if ('issues' in answer) return { issues: answer.issues };

  const results: Record<string, Result> = {};
  const issues: Issue[] = [];
  for (const [key, value] of Object.entries(answer.results)) {
    if (value === undefined) continue;
    const field = calculator.output[key];
    // An input with a fallback that comes back is echoed below, like every other.
    if (!field && 'fallback' in (calculator.input[key] ?? {})) continue;
    if (!field) return { issues: [ownFault(calculator, `an undocumented result "${key}"`)] };
    if (!isFiniteThroughout(value)) issues.push(notFinite(calculator, key));
    else results[key] = withUnit(value, field.kind === 'alike' ? (answer.kind ?? 'ratio') : field.kind);
  }
  if (issues.length > 0) return { issues };
  return {
    results: { ...results, ...echoed(calculator, input.value, results) },
    cautions: answer.cautions ?? [],
    sources: calculator.sources,
  };
}

const withUnit = (value: unknown, kind: QuantityKind | 'value'): Result =>
  kind === 'value' ? { value } : { value, unit: QUANTITY_KINDS[kind] };

/** Inputs with a fallback stand among the results with the value that was used. */
function echoed(
  calculator: Calculator,
  input: Inputs<Fields>,
  results: Readonly<Record<string, Result>>,
): Record<string, Result> {
  const echo: Record<string, Result> = {};
  for (const [key, field] of Object.entries(calculator.input)) {
    if (!('fallback' in field) || field.fallback === undefined || Object.hasOwn(results, key)) continue;
    const value = input[key];
    echo[key] = field.type === 'quantity' ? { value, unit: QUANTITY_KINDS[field.kind] } : { value };
  }
  return echo;
}

/** Every number anywhere inside is finite. */
function isFiniteThroughout(value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value);
  if (value !== null && typeof value === 'object') return Object.values(value).every(isFiniteThroughout);
  return true;
}

const notFinite = (calculator: Calculator, key: string): Issue => ({
  code: 'answer/not-finite',
  at: key,
  got: 'no finite number',
  wanted: 'a finite number',
  message: `With these inputs ${key} has no finite value. ${calculator.name} holds for: ${calculator.range}. Check the inputs.`,
});

/** A mistake of the program, said instead of thrown at the person. */
const ownFault = (calculator: Calculator, error: unknown): Issue => ({
  code: 'answer/failed',
  at: calculator.name,
  got: error instanceof Error ? error.message : String(error),
  wanted: 'an answer',
  message: `${calculator.name} could not be computed with these inputs; the fault is the program's. Please report the input.`,
});
