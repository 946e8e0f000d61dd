import { axisValues } from './places.ts';
import type { SpecSheet } from './sheet.ts';

/** One axis as a places cell names it: `rod` alone, or with its values, `rod(1 2 3 4)`. */
export interface NamedAxis {
  readonly axis: string;
  readonly values: readonly string[] | undefined;
}

/** The axes of a places cell such as `cylinder(1 2 3 4) height`; undefined when it cannot be read. */
export function axesOfCell(cell: string): NamedAxis[] | undefined {
  const axes: NamedAxis[] = [];
  let rest = cell.replaceAll('×', ' ').trim();
  while (rest !== '') {
    const found = /^([^\s()]+)\s*(?:\(([^()]*)\))?\s*/.exec(rest);
    if (!found) return undefined;
    const values = found[2]?.split(/[\s,;/]+/).filter(Boolean);
    if (values?.length === 0) return undefined;
    axes.push({ axis: (found[1] ?? '').toLowerCase(), values });
    rest = rest.slice(found[0].length);
  }
  return axes;
}

/**
 * The axes of a sheet from all its places cells: the longest list of values gives the order, the others add to it.
 */
export function axesOfCells(cells: readonly (readonly NamedAxis[])[]): Map<string, readonly string[]> {
  const lists = new Map<string, string[][]>();
  for (const { axis, values } of cells.flat())
    lists.set(axis, [...(lists.get(axis) ?? []), ...(values ? [[...values]] : [])]);
  return new Map(
    [...lists].map(([axis, all]) => [axis, [...new Set(all.sort((a, b) => b.length - a.length).flat())]]),
  );
}

/**
 * A places cell of one characteristic. Values are written where they are not the whole axis, and once for each axis
 * that is.
 *
 * @param written  axes whose values stand in an earlier row; added to
 */
export function cellOfPlaces(
  sheet: Pick<SpecSheet, 'axes'>,
  of: SpecSheet['characteristics'][number],
  written: Set<string>,
): string {
  return of.places
    .map((axis) => {
      const values = axisValues(sheet, of, axis);
      const whole = values.length === sheet.axes[axis]?.length;
      if (whole && written.has(axis)) return axis;
      if (whole) written.add(axis);
      return `${axis}(${values.join(' ')})`;
    })
    .join(' ');
}
