import { parseQuantity, printQuantity } from '@fettle/core';
import type { Body } from '../ledger/bodies.ts';

type LeafAnswer = Pick<Body<'reading'>, 'goes' | 'stops' | 'goes_stack' | 'stops_stack' | 'drags'>;

/** What is said with every stack of leaves. */
export const STACK_DOUBT =
  'A stack is less sure than a leaf: each adds its own error, and a film or burr between two ±0.1 thou (2.5 μm, assumed).';

/** How a leaf is said where the words stand; as it was entered, if nothing else is wanted. */
type LeafSaid = (text: string) => string;

/** `0.022 in`, or `0.012 + 0.010 in together`. */
export function leafWords(
  text: string,
  stack: readonly string[] | undefined,
  say: LeafSaid = (t) => t,
): string {
  if (!stack || stack.length < 2) return say(text);
  const units = new Set(stack.map(unitIn));
  const each = stack.map(say);
  const all = units.size > 1 ? each : each.map((one, i) => (i < each.length - 1 ? withoutUnit(one) : one));
  return `${all.join(' + ')} together`;
}

const unitIn = (text: string): string => withoutNumber(text).trim();
const withoutNumber = (text: string): string => text.replace(/^[-+.\d\s]+/, '');
const withoutUnit = (text: string): string => text.slice(0, text.length - withoutNumber(text).length).trim();

/** What leaves answered: `2 thou goes, 3 thou does not`; empty for a number. */
export function leafAnswerWords(
  { goes, stops, goes_stack, stops_stack, drags }: LeafAnswer,
  say?: LeafSaid,
): string {
  return [
    goes === undefined ? '' : `${leafWords(goes, goes_stack, say)} ${drags ? 'drags' : 'goes'}`,
    stops === undefined ? '' : `${leafWords(stops, stops_stack, say)} does not`,
  ]
    .filter((part) => part !== '')
    .join(', ');
}

/** Leaves laid together, in the unit of the first: `0.0015 + 0.003 in`; one that is a stack already stays as it is. */
export function stackWords(leaves: readonly string[]): string {
  const sizes = leaves.flatMap((leaf) => {
    const read = parseQuantity(leaf, 'length');
    return read.ok ? [read.value] : [];
  });
  const unit = sizes[0]?.unit;
  if (unit === undefined) return leaves.join(' + ');
  const thin = [...sizes].sort((a, b) => a.value - b.value);
  return thin
    .map(({ value }, i) => {
      const text = printQuantity(value, unit);
      return i < thin.length - 1 ? withoutUnit(text) : text;
    })
    .join(' + ');
}
