import type { Book } from '../fold/book.ts';
import { axisValues } from '../sheet/places.ts';
import type { Linear, Relation } from '../sheet/relation.ts';

type Axes = Map<string, readonly string[]>;

/** Where several inputs have an axis, only the values they all have are left. */
function shared(all: readonly Axes[]): Axes {
  const axes: Axes = new Map();
  for (const one of all)
    for (const [axis, values] of one) {
      const before = axes.get(axis);
      axes.set(axis, before ? before.filter((value) => values.includes(value)) : values);
    }
  return axes;
}

/** The axes a relation's value has, each with its values in bench order: what a reduction can run along. */
export function axesOf(book: Book, relation: Relation): Axes {
  const ofLinear = ({ terms }: Linear): Axes => shared(terms.map(({ of }) => axesOf(book, of)));
  if (typeof relation === 'string') {
    const characteristic = book.characteristics.get(relation);
    const sheet = book.sheet ?? { axes: {} };
    return new Map(
      (characteristic?.places ?? []).map((axis) => [axis, axisValues(sheet, characteristic!, axis)]),
    );
  }
  if ('characteristic' in relation) {
    const { at = {}, rename = {} } = relation;
    const open = [...axesOf(book, relation.characteristic)].filter(([axis]) => !Object.hasOwn(at, axis));
    return new Map(open.map(([axis, values]) => [rename[axis] ?? axis, values]));
  }
  if ('linear' in relation) return ofLinear(relation.linear);
  if ('ratio' in relation) return shared([ofLinear(relation.ratio.of), ofLinear(relation.ratio.by)]);
  if ('reduce' in relation) {
    const inner = axesOf(book, relation.reduce.of);
    for (const axis of relation.reduce.over) inner.delete(axis);
    return inner;
  }
  return shared(
    Object.values(relation.calculator.inputs).flatMap((input) => {
      if (!('of' in input)) return [];
      const axes = axesOf(book, input.of);
      if (input.over !== undefined) axes.delete(input.over);
      return [axes];
    }),
  );
}
