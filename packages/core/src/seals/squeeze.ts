import type { Metre } from '../units/si.ts';

/**
 * Share of its free thickness by which a packing is squeezed, (free − closed)/free.
 *
 * @source astm-f36
 */
export function squeezeFraction(free: Metre, closed: Metre): number {
  return (free - closed) / free;
}

/** Working squeeze of cork and cork-rubber, least and most: guidance only. @source practice-seals */
export const CORK_SQUEEZE = { least: 0.15, most: 0.3 } as const;
