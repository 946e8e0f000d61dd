import { kindsOf, type QuantityKind, unitNamed, unitsOfKind } from '@fettle/core';
import { type Faults, listed } from './fault.ts';
import type { Characteristic, LimitSet } from './sheet.ts';

interface Bounds {
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

type Path = readonly (string | number)[];

/** What a characteristic says about its kind, unit, limits and sizes. */
export function limitFaults(c: Characteristic, index: number, faults: Faults): void {
  const path = ['characteristics', index];
  if (c.kind === 'seen') seenFaults(c, path, faults);
  else {
    unitFaults(c, c.kind, path, faults);
    const fresh = c.limits?.new && boundsOf(c, c.limits.new, c.kind, [...path, 'limits', 'new'], faults);
    const wear = c.limits?.wear && boundsOf(c, c.limits.wear, c.kind, [...path, 'limits', 'wear'], faults);
    if (fresh && wear) nestingFaults(c, fresh, wear, path, faults);
    for (const [i, size] of (c.sizes ?? []).entries())
      faults.quantity(size.shift, c.kind, [...path, 'sizes', i, 'shift'], `${c.id}, size ${size.name}`);
  }
  springFaults(c, path, faults);
  const names = (c.sizes ?? []).map((size) => size.name);
  for (const [i, name] of names.entries())
    if (names.indexOf(name) !== i)
      faults.add(
        'duplicate-size',
        [...path, 'sizes', i, 'name'],
        name,
        'each size once',
        `${c.id} has the size "${name}" twice. Rename or remove one.`,
      );
  faults.quantity(c.expansion, 'expansion', [...path, 'expansion'], `${c.id}, expansion`);
}

/** A load of a spring is taken at a length; its free and solid lengths are lengths themselves. */
function springFaults(c: Characteristic, path: Path, faults: Faults): void {
  const { spring_length: at } = c;
  if (at === undefined) return;
  const kind = at === 'free' || at === 'solid' ? 'length' : 'force';
  if (kind === 'force') faults.quantity(at, 'length', [...path, 'spring_length'], `${c.id}, spring length`);
  if (c.kind !== kind)
    faults.add(
      'spring-kind',
      [...path, 'spring_length'],
      `${at}, of a ${c.kind}`,
      `a ${kind}`,
      `${c.id} is a ${c.kind}, but a spring_length "${at}" belongs to a ${kind}: "free" and "solid" to lengths, a length to the load taken at it. Correct one.`,
    );
}

function seenFaults(c: Characteristic, path: Path, faults: Faults): void {
  const surplus = (['limits', 'unit', 'sizes', 'relation', 'reduce', 'read_as'] as const).filter(
    (key) => c[key] !== undefined,
  );
  for (const key of surplus)
    faults.add(
      'seen-with-number',
      [...path, key],
      key,
      'nothing',
      `${c.id} is looked at, not measured, so it has no ${key}. Remove it, or give the kind of the quantity.`,
    );
  if (c.wanted === undefined)
    faults.add(
      'seen-without-wanted',
      [...path, 'wanted'],
      'nothing',
      'what it must look like, in words',
      `${c.id} is looked at, but the sheet does not say what is wanted. Say in "wanted" what it must look like.`,
    );
}

function unitFaults(c: Characteristic, kind: QuantityKind, path: Path, faults: Faults): void {
  if (c.unit === undefined || unitNamed(c.unit, kind)) return;
  const others = kindsOf(c.unit);
  const units = unitsOfKind(kind).map((unit) => unit.name);
  faults.add(
    'unit-and-kind',
    [...path, 'unit'],
    c.unit,
    listed(units),
    others.length > 0
      ? `${c.id} is a ${kind}, but "${c.unit}" is a unit of ${others.join(' or ')}. Correct the kind or the unit.`
      : `${c.id}: "${c.unit}" is no unit of ${kind} known here. Use one of ${listed(units.slice(0, 8))}.`,
  );
}

function boundsOf(c: Characteristic, set: LimitSet, kind: QuantityKind, path: Path, faults: Faults): Bounds {
  const which = `${c.id}, ${path.at(-1)} limits`;
  const lower = faults.quantity(set.lower, kind, [...path, 'lower'], `${which}, lower`);
  const upper = faults.quantity(set.upper, kind, [...path, 'upper'], `${which}, upper`);
  const target = faults.quantity(set.target, kind, [...path, 'target'], `${which}, target`);
  if (lower !== undefined && upper !== undefined && lower > upper)
    faults.add(
      'limits-crossed',
      path,
      `lower ${set.lower}, upper ${set.upper}`,
      'lower at or under upper',
      `${which}: the lower one, ${set.lower}, is above the upper one, ${set.upper}. Exchange or correct them.`,
    );
  else if (target !== undefined && (target < (lower ?? -Infinity) || target > (upper ?? Infinity)))
    faults.add(
      'target-outside',
      [...path, 'target'],
      set.target ?? '',
      `from ${set.lower ?? 'below'} to ${set.upper ?? 'above'}`,
      `${which}: the target ${set.target} lies outside them. Correct the target or the limits.`,
    );
  if (set.lower === undefined && set.upper === undefined && set.target === undefined)
    faults.add(
      'limits-empty',
      path,
      'no limit',
      'a lower or an upper limit',
      `${which} are empty. Give one, or leave the set out and say why in "no_limits".`,
    );
  else if (set.source === undefined && c.source === undefined)
    faults.add(
      'no-source',
      path,
      'no source',
      'document, page and trust',
      `${which} do not say where they come from. Give a source: its document, its page and how far it is trusted.`,
    );
  return { lower, upper };
}

/** A worn part may be further off than a new one, never less. */
function nestingFaults(c: Characteristic, fresh: Bounds, wear: Bounds, path: Path, faults: Faults): void {
  const { new: n, wear: w } = c.limits ?? {};
  if (fresh.upper !== undefined && wear.upper !== undefined && wear.upper < fresh.upper)
    faults.add(
      'wear-inside-new',
      [...path, 'limits', 'wear', 'upper'],
      w?.upper ?? '',
      `at or over ${n?.upper}`,
      `${c.id}: the wear limit ${w?.upper} is tighter than the upper limit for new parts, ${n?.upper}. One of them is misread, or they are exchanged.`,
    );
  if (fresh.lower !== undefined && wear.lower !== undefined && wear.lower > fresh.lower)
    faults.add(
      'wear-inside-new',
      [...path, 'limits', 'wear', 'lower'],
      w?.lower ?? '',
      `at or under ${n?.lower}`,
      `${c.id}: the wear limit ${w?.lower} is tighter than the lower limit for new parts, ${n?.lower}. One of them is misread, or they are exchanged.`,
    );
}
