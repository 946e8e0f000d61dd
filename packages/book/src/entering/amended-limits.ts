import type { LimitSetName } from '../assess/limits.ts';
import type { Characteristic, LimitSet, LimitSource } from '../sheet/sheet.ts';

type Bound = 'lower' | 'upper' | 'target';
const BOUNDS: readonly Bound[] = ['lower', 'upper', 'target'];

/**
 * A set of limits with some of its bounds changed: what was not touched keeps the source it had.
 *
 * @param changed  as said, with units; null for a bound that is taken out
 * @param source   where the changed ones come from
 */
export function amendedLimits(
  characteristic: Characteristic,
  set: LimitSetName,
  changed: Readonly<Partial<Record<Bound, string | null>>>,
  source: LimitSource,
): LimitSet {
  const before = characteristic.limits?.[set] ?? {};
  const bounds: Partial<Record<Bound, string>> = {};
  const sources: Partial<Record<Bound, LimitSource>> = {};
  for (const bound of BOUNDS) {
    const said = changed[bound];
    const text = said === undefined ? before[bound] : said;
    if (text === undefined || text === null) continue;
    bounds[bound] = text;
    const from = said === undefined ? before.sources?.[bound] : source;
    if (from) sources[bound] = from;
  }
  const isAllNew = BOUNDS.every((bound) => bounds[bound] === undefined || typeof changed[bound] === 'string');
  if (isAllNew) return { ...bounds, source };
  return {
    ...bounds,
    ...(before.source && { source: before.source }),
    ...(Object.keys(sources).length > 0 && { sources }),
  };
}
