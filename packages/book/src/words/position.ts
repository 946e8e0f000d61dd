import type { Place, SheetPosition } from '../sheet/places.ts';

/** Axes whose values say by themselves what they are; of the others the axis is named with the value. */
const SPEAKING: ReadonlySet<string> = new Set([
  'height',
  'axis',
  'end',
  'side',
  'ring',
  'gear',
  'valve-kind',
  'bank',
]);

const degrees = (axis: string, value: string): string =>
  axis === 'turn' && /^\d+$/.test(value) ? `${value}°` : value;

/** `main 2, front, 90°`; empty where there is one place only. */
export function placeInWords(axes: readonly string[], place: Place): string {
  return axes
    .filter((axis) => Object.hasOwn(place, axis))
    .map((axis) => {
      const value = place[axis]!;
      if (SPEAKING.has(axis) || (axis === 'turn' && /^\d+$/.test(value)) || !/^\d+$/.test(value))
        return degrees(axis, value);
      return `${axis.replaceAll('-', ' ')} ${value}`;
    })
    .join(', ');
}

/** `Main shells, main 2`; a position whose name says its place already stays as it is. */
export function positionWords({ name, place }: SheetPosition): string {
  const said = new Set(name.split(/[^\p{L}\p{N}]+/u));
  const at = placeInWords(
    Object.keys(place).filter((axis) => !said.has(place[axis]!)),
    place,
  );
  return at === '' ? name : `${name}, ${at}`;
}
