import { constantOf } from '../assess/constant.ts';
import { limitsOf } from '../assess/limits.ts';
import type { Book } from '../fold/book.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { madeLimits, type SizeFamily } from './size-family.ts';

/** The finished size by the limits of what it mates with: journal = housing − 2 wall − clearance. */
export interface DrawingSize {
  readonly clearance: Characteristic;
  readonly others: readonly {
    readonly characteristic: Characteristic;
    readonly lower: number;
    readonly upper: number;
  }[];
  /** Within these the clearance is in whatever the others are made to; crossed where nothing is. */
  readonly lower: number;
  readonly upper: number;
  /** The sheet's own limits at that size. */
  readonly sheet: { readonly lower: number; readonly upper: number };
}

/**
 * Sizes that keep a clearance within its limits whatever its other parts are, worst case:
 *
 *     f x ∈ [L − min Σ fᵢ oᵢ, U − max Σ fᵢ oᵢ]
 *
 * for every linear clearance with both limits for new parts whose other parts have both as well.
 */
export const drawingSizes = (book: Book, family: SizeFamily, size: string): DrawingSize[] =>
  [...book.characteristics.values()].flatMap((clearance) => {
    const { relation } = clearance;
    const limits = limitsOf(clearance, 'new', undefined);
    if (limits?.lower === undefined || limits.upper === undefined) return [];
    if (relation === undefined || typeof relation === 'string' || !('linear' in relation)) return [];
    const constant = constantOf(relation.linear.constant);
    const terms = relation.linear.terms.map(({ factor, of }) => ({
      factor,
      of: typeof of === 'string' ? book.characteristics.get(of) : undefined,
    }));
    const own = terms.find(({ of }) => of?.id === family.characteristic.id);
    const others = terms.filter((term) => term !== own);
    if (!own || own.factor === 0 || others.length === 0 || constant === undefined) return [];
    const made = others.map(({ factor, of }) => {
      const { lower, upper } = (of && limitsOf(of, 'new', sizeNamed(of, size))) ?? {};
      return of && lower !== undefined && upper !== undefined
        ? { characteristic: of, factor, lower, upper }
        : undefined;
    });
    if (made.some((one) => one === undefined)) return [];
    const known = made.map((one) => one!);
    const end = (high: boolean): number =>
      known.reduce(
        (sum, { factor, lower, upper }) => sum + factor * (factor > 0 === high ? upper : lower),
        constant,
      );
    const [from, to] = [limits.lower - end(false), limits.upper - end(true)];
    const [a, b] = [from / own.factor, to / own.factor];
    return [
      {
        clearance,
        others: known,
        lower: own.factor > 0 ? a : b,
        upper: own.factor > 0 ? b : a,
        sheet: madeLimits(family, size),
      },
    ];
  });

/** Its own size of the same name, where it has one; else it stays as made. */
const sizeNamed = ({ sizes }: Characteristic, size: string): string | undefined =>
  sizes?.some(({ name }) => name === size) ? size : undefined;
