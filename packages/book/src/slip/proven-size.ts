import { linear, normalQuantile, standardUncertainty, type Uncertain, uncertain } from '@fettle/core';
import { takesTheSame } from '../assess/finer-input.ts';
import { instrumentTerms } from '../assess/instrument.ts';
import type { Limits } from '../assess/limits.ts';
import { RISK } from '../assess/verdict.ts';
import type { Book } from '../fold/book.ts';
import type { Characteristic } from '../sheet/sheet.ts';

/** What a size must come back as for its clearance to be proven with what one owns. */
export interface ProvenSize {
  readonly lower?: number;
  readonly upper?: number;
  /** Name of the instrument it would be read with. */
  readonly by: string;
  /** Whether any size can be proven by it: false where its doubt is wider than the limits. */
  readonly possible: boolean;
}

/**
 * The limits of a finished size drawn in by the guard that its verdict on arrival needs:
 *
 *     g = z(1 − risk) u(clearance) / |f|
 *
 * u that of the clearance as it will be reckoned, parts and the finest instrument owned for the size together, what they
 * share cancelled. A shop that works to the limits themselves can return a bore nobody can then call in.
 *
 * @param made    the size asked for and its factor in the clearance
 * @param others  measured parts with their factors
 * @param limits  of the size [SI]
 * @returns       undefined where nothing owned is known to take it
 * @source        jcgm-106 8.3.2 for the guarded acceptance
 */
export function provenSize(
  book: Book,
  made: { readonly factor: number; readonly of: Characteristic },
  others: readonly { readonly factor: number; readonly q: Uncertain }[],
  limits: Limits,
): ProvenSize | undefined {
  const { of, factor } = made;
  if (of.kind === 'seen') return undefined;
  const { kind } = of;
  const near = limits.lower ?? limits.upper;
  if (near === undefined) return undefined;
  const used = new Set(
    book.readings
      .filter(({ body, standing }) => standing === 'counts' && body.characteristic === of.id)
      .flatMap(({ body }) => book.instruments.get(body.instrument)?.body.type ?? []),
  );
  const doubts = [...book.instruments.values()]
    .filter(({ body }) => [...used].some((type) => takesTheSame(type, body.type)))
    .flatMap((instrument) => {
      const terms = instrumentTerms(book.instruments, instrument, kind, near, 'on-arrival');
      if (!terms) return [];
      const clearance = linear([
        { factor, of: uncertain(near, ...terms) },
        ...others.map((one) => ({ factor: one.factor, of: one.q })),
      ]);
      return [{ by: instrument.body.name, u: standardUncertainty(clearance) }];
    });
  const [finest] = doubts.sort((a, b) => a.u - b.u);
  if (!finest) return undefined;
  const guard = (normalQuantile(1 - RISK) * finest.u) / Math.abs(factor);
  const lower = limits.lower === undefined ? undefined : limits.lower + guard;
  const upper = limits.upper === undefined ? undefined : limits.upper - guard;
  return {
    ...(lower !== undefined && { lower }),
    ...(upper !== undefined && { upper }),
    by: finest.by,
    possible: lower === undefined || upper === undefined || lower <= upper,
  };
}
