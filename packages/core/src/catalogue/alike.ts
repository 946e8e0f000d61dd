import { failed, type Outcome, ok } from '../issue.ts';
import { QUANTITY_KINDS, type QuantityKind } from '../units/kinds.ts';
import { writtenNumber } from '../units/number.ts';
import { parseQuantity } from '../units/quantity.ts';
import { type BareNumbers, gotInWords, readQuantity } from '../units/read-quantity.ts';
import { kindsOf, unitOf } from '../units/unit.ts';
import type { Calculator } from './calculator.ts';
import type { AlikeField } from './field.ts';

/** The kind whose unit labels the answer when only bare numbers came; the numbers do not depend on it. */
const UNSAID: QuantityKind = 'length';

const isKind = (word: unknown): word is QuantityKind =>
  typeof word === 'string' && Object.hasOwn(QUANTITY_KINDS, word);

/**
 * The one kind of all inputs that are alike: as said by `kind`, else as their units have it in common.
 * Undefined when the calculator has no such inputs.
 */
export function kindOfAlike(
  calculator: Calculator,
  given: Readonly<Record<string, unknown>>,
): Outcome<QuantityKind | undefined> {
  const keys = Object.entries(calculator.input)
    .filter(([, field]) => field.type === 'alike')
    .map(([key]) => key);
  if (keys.length === 0) return ok(undefined);
  const { kind } = Object.hasOwn(given, 'kind') ? given : {};
  if (kind !== undefined) return ok(isKind(kind) ? kind : UNSAID);
  const said = keys.filter((key) => Object.hasOwn(given, key)).map((key) => given[key]);
  return commonKind(said.filter((raw) => typeof raw === 'string'));
}

/** The kind that quantities written with units have in common. */
export function commonKind(texts: readonly string[]): Outcome<QuantityKind> {
  const spellings = texts.flatMap((text) => {
    const written = writtenNumber(text);
    return written.ok && written.value.rest !== '' ? [written.value.rest] : [];
  });
  const sets = spellings.map(kindsOf).filter((kinds) => kinds.length > 0);
  const [first] = sets;
  if (!first) return ok(UNSAID);
  const common = first.filter((kind) => sets.every((kinds) => kinds.includes(kind)));
  const [kind, other] = common;
  if (kind !== undefined && other === undefined) return ok(kind);
  return failed({
    code: kind === undefined ? 'unit/mixed-kinds' : 'unit/ambiguous',
    at: 'kind',
    got: gotInWords(spellings.join(', ')),
    wanted: 'units of one kind of quantity',
    message:
      kind === undefined
        ? `${gotInWords(spellings.join(', '))} are units of different kinds. All of these must be of one kind.`
        : `These units can mean ${common.join(' or ')}. Say which with "kind".`,
  });
}

export function readAlike(
  { range, difference }: AlikeField,
  raw: unknown,
  kind: QuantityKind,
  reading: BareNumbers,
): Outcome<number> {
  if (!(difference && kind === 'temperature' && typeof raw === 'string'))
    return readQuantity(raw, kind, range, reading);
  const read = parseQuantity(raw, kind);
  if (!read.ok) return read;
  const kelvins = read.value.said * unitOf(read.value.unit).factor;
  return readQuantity(kelvins, kind, range, { bareNumbersAreSi: true });
}
