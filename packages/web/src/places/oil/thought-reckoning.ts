import { type Book, isAt, type Known, type Place, Reckoning, type Selection } from '@fettle/book';
import { CATALOGUE, exact } from '@fettle/core';

interface Inlet {
  readonly characteristic: string;
  readonly at: Place;
  /** In the characteristic's own measurand [SI]. */
  readonly value: number;
}

/** The parameters tried, with the characteristic and the places that the sheet takes each from. */
function inletsOf({ sheet }: Book, values: Readonly<Record<string, number>>): Inlet[] {
  const elements = (sheet?.oil?.circuit?.elements ?? []) as readonly Readonly<Record<string, unknown>>[];
  return elements.flatMap((element) =>
    Object.entries(element).flatMap(([key, from]) => {
      const value = values[`${String(element.id)}.${key}`];
      if (value === undefined || typeof from !== 'object' || from === null || !('from' in from)) return [];
      const {
        from: characteristic,
        at,
        factor,
      } = from as {
        from: string;
        at?: Place;
        factor?: number;
      };
      return [{ characteristic, at: at ?? {}, value: value / (factor ?? 1) }];
    }),
  );
}

/** What is known, but for the clearances tried: they stand as tried, without doubt, at every place they are taken from. */
export class ThoughtReckoning extends Reckoning {
  private readonly inlets: readonly Inlet[];

  constructor(book: Book, selection: Selection, values: Readonly<Record<string, number>>) {
    super(book, selection, CATALOGUE);
    this.inlets = inletsOf(book, values);
  }

  override at(id: string, place: Place): Known {
    const tried = this.inlets.find(({ characteristic, at }) => characteristic === id && isAt(at, place));
    const known = super.at(id, place);
    if (!tried) return known;
    const { cut: _, ...rest } = known;
    return { ...rest, operand: { kind: 'value', q: exact(tried.value) } };
  }
}
