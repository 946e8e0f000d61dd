import { parseQuantity } from '@fettle/core';
import type { Characteristic, LimitSource } from '../sheet/sheet.ts';

/** Limits in SI, moved by the size of the part they are for. */
export interface Limits {
  readonly lower?: number;
  readonly upper?: number;
  readonly target?: number;
}

export type LimitSetName = 'new' | 'wear';

/** A quantity of the sheet in SI; undefined where it does not read, which the sheet's own check has told. */
export function siOf(text: string | undefined, characteristic: Characteristic): number | undefined {
  if (text === undefined || characteristic.kind === 'seen') return undefined;
  const read = parseQuantity(text, characteristic.kind);
  return read.ok ? read.value.value : undefined;
}

/** Limits worked out before: a characteristic is never changed, an amended one is another. */
const known = new WeakMap<Characteristic, Map<string, Limits | undefined>>();

/** @param size  the name of the size the part is made to; unknown names move nothing */
export function limitsOf(
  characteristic: Characteristic,
  set: LimitSetName,
  size: string | undefined,
): Limits | undefined {
  const own = known.get(characteristic) ?? new Map<string, Limits | undefined>();
  known.set(characteristic, own);
  const key = size === undefined ? set : `${set} ${size}`;
  if (!own.has(key)) own.set(key, readLimits(characteristic, set, size));
  return own.get(key);
}

function readLimits(
  characteristic: Characteristic,
  set: LimitSetName,
  size: string | undefined,
): Limits | undefined {
  const printed = characteristic.limits?.[set];
  if (!printed) return undefined;
  const shift = siOf(characteristic.sizes?.find(({ name }) => name === size)?.shift, characteristic) ?? 0;
  const moved = (text: string | undefined): number | undefined => {
    const si = siOf(text, characteristic);
    return si === undefined ? undefined : si + shift;
  };
  const [lower, upper, target] = [moved(printed.lower), moved(printed.upper), moved(printed.target)];
  if (lower === undefined && upper === undefined) return undefined;
  return {
    ...(lower !== undefined && { lower }),
    ...(upper !== undefined && { upper }),
    ...(target !== undefined && { target }),
  };
}

/** Bounds of one set with where they come from: one group, unless single bounds were amended. */
export interface SourcedBounds {
  readonly bounds: readonly ('lower' | 'upper' | 'target')[];
  readonly source: LimitSource | undefined;
}

const BOUNDS = ['lower', 'upper', 'target'] as const;

/** Where the bounds of a limit set come from: each its own source, else the set's, else the characteristic's. */
export function sourcesOf(characteristic: Characteristic, set: LimitSetName): SourcedBounds[] {
  const limits = characteristic.limits?.[set];
  const groups = new Map<string, SourcedBounds>();
  for (const bound of BOUNDS) {
    if (limits?.[bound] === undefined) continue;
    const source = limits.sources?.[bound] ?? limits.source ?? characteristic.source;
    const key = JSON.stringify(source ?? null);
    groups.set(key, { bounds: [...(groups.get(key)?.bounds ?? []), bound], source });
  }
  return groups.size > 0 ? [...groups.values()] : [{ bounds: [], source: characteristic.source }];
}

/** `wear` where one source gives the whole set, `wear, lower` where only that bound comes from it. */
export const sourcedName = (set: LimitSetName, { bounds }: SourcedBounds, groups: number): string =>
  groups === 1 ? set : `${set}, ${bounds.join(' and ')}`;
