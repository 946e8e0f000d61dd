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

/** Where a limit set comes from: its own source, or the characteristic's. */
export const sourceOf = (characteristic: Characteristic, set: LimitSetName): LimitSource | undefined =>
  characteristic.limits?.[set]?.source ?? characteristic.source;
