import { AMBIGUOUS } from './ambiguous.ts';
import type { QuantityKind } from './kinds.ts';
import { UNITS, type Unit } from './table.ts';

/** Writings met before: a job says the same few units thousands of times. */
const met = new Map<string, string>();
/** More than anybody writes; then it begins anew, so that what comes from outside cannot fill it. */
const MOST_MET = 500;

function plainSpelling(text: string): string {
  const before = met.get(text);
  if (before !== undefined) return before;
  if (met.size >= MOST_MET) met.clear();
  const plain = spelledPlainly(text);
  met.set(text, plain);
  return plain;
}

/** One writing out of many: dots for products, digits for powers, `u` for micro, `deg` for the degree sign. */
function spelledPlainly(text: string): string {
  return text
    .trim()
    .replace(/[\u00b5\u03bc]/g, 'u')
    .replace(/[·⋅∙•*]/g, '.')
    .replace(/[\u2010-\u2013\u2212]/g, '-')
    .replaceAll('²', '2')
    .replaceAll('³', '3')
    .replaceAll('⁻¹', '-1')
    .replaceAll('^', '')
    .replace(/[″”“]|''/g, '"')
    .replace(/[′’‘]/g, "'")
    .replaceAll('℃', 'degC')
    .replaceAll('℉', 'degF')
    .replace(/(°|deg\.?|degrees?)\s*(?=[CFcf]$)/, 'deg')
    .replace('°', 'deg')
    .replace(/\s+/g, ' ')
    .replace(/ ?([./]) ?/g, '$1');
}

interface Spellings {
  readonly exact: ReadonlyMap<string, Unit>;
  readonly folded: ReadonlyMap<string, Unit>;
}

const spellingsByKind: ReadonlyMap<QuantityKind, Spellings> = (() => {
  const maps = new Map<QuantityKind, { exact: Map<string, Unit>; folded: Map<string, Unit> }>();
  for (const unit of UNITS) {
    const known = maps.get(unit.kind) ?? { exact: new Map(), folded: new Map() };
    maps.set(unit.kind, known);
    for (const spelling of [unit.name, ...unit.spellings].map(plainSpelling)) {
      known.exact.set(spelling, unit);
      if (unit.anyCase) known.folded.set(spelling.toLowerCase(), unit);
    }
  }
  return maps;
})();

const byName: ReadonlyMap<string, Unit> = new Map(UNITS.map((unit) => [unit.name, unit]));

/** The unit a writing stands for within a kind; undefined when it stands for none or for several. */
export function unitNamed(spelling: string, kind: QuantityKind): Unit | undefined {
  const plain = plainSpelling(spelling);
  const spellings = spellingsByKind.get(kind);
  return spellings?.exact.get(plain) ?? spellings?.folded.get(plain.toLowerCase());
}

/** The units a writing may stand for when it must be asked about; empty when there is no doubt. */
export function unitsMeant(spelling: string, kind: QuantityKind): readonly string[] {
  const asked = AMBIGUOUS[kind];
  const plain = plainSpelling(spelling);
  if (!asked) return [];
  for (const key of [plain, plain.toLowerCase()]) if (Object.hasOwn(asked, key)) return asked[key] ?? [];
  return [];
}

/** Every kind in which a writing is a unit. */
export function kindsOf(spelling: string): QuantityKind[] {
  return [...spellingsByKind.keys()].filter((kind) => unitNamed(spelling, kind) !== undefined);
}

/** A unit of the kind that differs from the writing only by case: a likely slip, offered and never taken. */
export function unitButForCase(spelling: string, kind: QuantityKind): Unit | undefined {
  const plain = plainSpelling(spelling).toLowerCase();
  for (const [key, unit] of spellingsByKind.get(kind)?.exact ?? [])
    if (key.toLowerCase() === plain) return unit;
  return undefined;
}

/** The units of a kind, the usual ones first. */
export const unitsOfKind = (kind: QuantityKind): readonly Unit[] =>
  UNITS.filter((unit) => unit.kind === kind);

/** A canonical name that does not exist is a mistake of the program, not of the person. */
export function unitOf(name: string): Unit {
  const unit = byName.get(name);
  if (!unit) throw new RangeError(`no unit is named "${name}"`);
  return unit;
}

export const kindOfUnit = (name: string): QuantityKind => unitOf(name).kind;
export const ucumCode = (name: string): string => unitOf(name).ucum;

/**
 * SI from a number in a unit, rounded to 15 significant digits,
 * so that `.007 in`, `7 thou` and `0.1778 mm` are one and the same number.
 */
export function fromUnit(value: number, name: string): number {
  const { factor, offset } = unitOf(name);
  return Number((value * factor + offset).toPrecision(15));
}

/** A number in a unit from SI. */
export function inUnit(si: number, name: string): number {
  const { factor, offset } = unitOf(name);
  return Number(((si - offset) / factor).toPrecision(15));
}

/** `printQuantity(0.0000508, 'thou')` is `2 thou`; without decimals six significant digits, none of them padding. */
export function printQuantity(si: number, name: string, decimals?: number): string {
  const { shown } = unitOf(name);
  const value = inUnit(si, name);
  if (!Number.isFinite(value)) return '—';
  const digits = decimals === undefined ? String(Number(value.toPrecision(6))) : value.toFixed(decimals);
  const number = /^-0(\.0*)?$/.test(digits) ? digits.slice(1) : digits;
  const joined = shown === '' || shown === '%' || shown === '°' ? '' : ' ';
  return `${number}${joined}${shown}`;
}
