import { limitsOf, siOf } from '../assess/limits.ts';
import type { Body } from '../ledger/bodies.ts';
import type { Characteristic } from '../sheet/sheet.ts';

type Restored = Body<'repair-offered'>['restores'][number];

/** Whether what an offer makes of a characteristic is within the limits that will judge it. */
export function isCured(characteristic: Characteristic, { value, judged_by, size }: Restored): boolean {
  if (value === undefined || characteristic.kind === 'seen') return true;
  const si = siOf(value, characteristic);
  const limits =
    limitsOf(characteristic, judged_by, size) ??
    limitsOf(characteristic, judged_by === 'new' ? 'wear' : 'new', size);
  if (si === undefined) return false;
  // A value on the limit itself is within it, whatever its last binary digit became on the way into SI.
  const slack = 1e-9 * Math.abs(si);
  return (limits?.lower ?? si) <= si + slack && si - slack <= (limits?.upper ?? si);
}

/** In by the limits for wear, out by those for new parts: it may be used, and is not as new. */
export function isCuredByWearOnly(characteristic: Characteristic, one: Restored): boolean {
  if (one.value === undefined || one.judged_by === 'new' || !characteristic.limits?.new) return false;
  return isCured(characteristic, one) && !isCured(characteristic, { ...one, judged_by: 'new' });
}
