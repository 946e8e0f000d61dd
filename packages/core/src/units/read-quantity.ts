import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import { QUANTITY_KINDS, type QuantityKind } from './kinds.ts';
import { missingUnit, parseQuantity } from './quantity.ts';

/** Bounds in SI. A bound itself is allowed unless `above` or `below` is used. */
export interface Bounds {
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
  readonly below?: number;
}

export interface BareNumbers {
  /** In JSON alone a bare number is taken as SI; whoever types must say the unit. */
  readonly bareNumbersAreSi: boolean;
}

/** What came, short enough for a sentence. */
export function gotInWords(raw: unknown): string {
  if (raw === undefined) return 'nothing';
  if (typeof raw === 'number') return String(raw);
  if (Array.isArray(raw)) return `a list of ${raw.length}`;
  if (raw !== null && typeof raw === 'object') return 'an object';
  const text = String(raw);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** SI from a quantity string or a bare number, within bounds; whatever else came is an issue. */
export function readQuantity(
  raw: unknown,
  kind: QuantityKind,
  bounds: Bounds,
  { bareNumbersAreSi }: BareNumbers,
): Outcome<number> {
  const read = numberOf(raw, kind, bareNumbersAreSi);
  if (!read.ok) return read;
  const fault = outOfBounds(read.value, kind, bounds);
  return fault ? failed({ ...fault, got: gotInWords(raw) }) : read;
}

function numberOf(raw: unknown, kind: QuantityKind, bareNumbersAreSi: boolean): Outcome<number> {
  if (typeof raw === 'string') {
    const read = parseQuantity(raw, kind);
    return read.ok ? ok(read.value.value) : read;
  }
  if (typeof raw === 'number') {
    if (!Number.isFinite(raw))
      return failed({
        code: 'number/not-finite',
        at: '',
        got: String(raw),
        wanted: 'a finite number',
        message: `${raw} is no finite number. Give the quantity with its unit.`,
      });
    return bareNumbersAreSi || kind === 'ratio' ? ok(raw) : failed(missingUnit(String(raw), kind));
  }
  return failed({
    code: 'input/wrong-type',
    at: '',
    got: gotInWords(raw),
    wanted: kind === 'ratio' ? 'a number' : `a ${kind.replace('-', ' ')} with its unit, as text`,
    message: `One quantity is wanted here, and ${gotInWords(raw)} came. Write it as text with its unit.`,
  });
}

function boundsInWords({ min, above, max, below }: Bounds, kind: QuantityKind): string {
  const unit = kind === 'ratio' ? '' : ` ${QUANTITY_KINDS[kind]}`;
  const parts = [
    min === undefined ? '' : `at least ${min}${unit}`,
    above === undefined ? '' : `above ${above}${unit}`,
    max === undefined ? '' : `at most ${max}${unit}`,
    below === undefined ? '' : `below ${below}${unit}`,
  ].filter((part) => part !== '');
  return parts.length > 0 ? parts.join(' and ') : 'any';
}

function outOfBounds(value: number, kind: QuantityKind, bounds: Bounds): Issue | undefined {
  const { min, above, max, below } = bounds;
  const inside =
    (min === undefined || value >= min) &&
    (above === undefined || value > above) &&
    (max === undefined || value <= max) &&
    (below === undefined || value < below);
  if (inside) return undefined;
  const unit = kind === 'ratio' ? '' : ` ${QUANTITY_KINDS[kind]}`;
  const wanted = boundsInWords(bounds, kind);
  return {
    code: 'input/out-of-range',
    at: '',
    got: '',
    wanted,
    message: `${value}${unit} is outside what can be computed: it must be ${wanted}. Check the number and its unit.`,
  };
}
