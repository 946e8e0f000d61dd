import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import type { QuantityKind } from './kinds.ts';
import { writtenNumber } from './number.ts';
import { fromUnit, kindsOf, unitButForCase, unitNamed, unitsMeant, unitsOfKind } from './unit.ts';

/** A quantity as somebody said it, and in SI. */
export interface Quantity {
  /** In the SI unit of its kind. */
  readonly value: number;
  /** The number in the unit it was said in. */
  readonly said: number;
  /** Canonical name of that unit. */
  readonly unit: string;
  /** As typed. */
  readonly text: string;
  /** The numeric part as typed: its digits tell how fine the reading was. */
  readonly digits: string;
}

const articled = (kind: QuantityKind): string =>
  `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind.replace('-', ' ')}`;

const USUAL_UNITS = 6;

/** The units somebody is likely to mean, metric and inch alike. */
function usualUnits(kind: QuantityKind): string[] {
  const all = unitsOfKind(kind);
  const metric = all.filter((unit) => !unit.anyCase).slice(0, USUAL_UNITS / 2);
  const trade = all.filter((unit) => unit.anyCase).slice(0, USUAL_UNITS / 2);
  return [...metric, ...trade].map((unit) => unit.name);
}

/** What is wanted where a quantity of a kind must stand. */
const wantedUnit = (kind: QuantityKind): string =>
  kind === 'ratio'
    ? 'a plain number, or one with %'
    : `${articled(kind)} with its unit: ${usualUnits(kind).join(', ')}`;

export function missingUnit(text: string, kind: QuantityKind): Issue {
  const units = usualUnits(kind);
  return {
    code: 'unit/missing',
    at: '',
    got: text,
    wanted: wantedUnit(kind),
    message: `"${text}" has no unit. It could be any of ${units.join(', ')}; write which, as in "${text} ${units[0]}".`,
  };
}

/**
 * Reads a quantity of a known kind. A unit that is missing, unknown, of another kind or open to two readings
 * comes back as an issue; nothing is ever guessed.
 */
export function parseQuantity(text: string, kind: QuantityKind): Outcome<Quantity> {
  const written = writtenNumber(text);
  if (!written.ok) return written;
  const { value: said, digits, rest } = written.value;
  if (rest === '' && kind !== 'ratio') return failed(missingUnit(text.trim(), kind));
  const unit = rest === '' ? '1' : nameOf(rest, kind, text);
  if (typeof unit !== 'string') return failed(unit);
  const value = fromUnit(said, unit);
  if (!Number.isFinite(value))
    return failed({
      code: 'number/not-finite',
      at: '',
      got: text,
      wanted: wantedUnit(kind),
      message: `"${text}" is too large to compute with. Check the digits and the unit.`,
    });
  return ok({ value, said, unit, text, digits });
}

function nameOf(spelling: string, kind: QuantityKind, text: string): string | Issue {
  const meant = unitsMeant(spelling, kind);
  const issue = (code: string, message: string): Issue => ({
    code,
    at: '',
    got: text,
    wanted: wantedUnit(kind),
    message,
  });
  if (meant.length === 1)
    return issue(
      'unit/wrong-kind',
      `"${spelling}" is not ${articled(kind)}. Did you mean ${meant[0]}? Write it so: "${text.trim().slice(0, -spelling.length)}${meant[0]}".`,
    );
  if (meant.length > 1)
    return issue('unit/ambiguous', `"${spelling}" can mean ${meant.join(' or ')}. Write which of them.`);
  const unit = unitNamed(spelling, kind);
  if (unit) return unit.name;
  const kinds = kindsOf(spelling);
  if (kinds.length > 0)
    return issue(
      'unit/wrong-kind',
      `"${spelling}" is a unit of ${kinds.map((k) => k.replace('-', ' ')).join(' or ')}, and ${articled(kind)} is wanted. Give it in ${usualUnits(kind).join(', ')}.`,
    );
  const near = unitButForCase(spelling, kind);
  return issue(
    'unit/unknown',
    near
      ? `"${spelling}" is no unit. Did you mean ${near.name}? Capitals count in metric units.`
      : `"${spelling}" is no unit known here for ${articled(kind)}. Use one of ${usualUnits(kind).join(', ')}.`,
  );
}
