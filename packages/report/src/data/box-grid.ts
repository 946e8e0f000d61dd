import { type Place, placeText } from '@fettle/book';

/** Boxes to write in, in lines of at most `MOST`; read line by line they are in bench order. */
export interface BoxGrid {
  /** What the columns share; empty where every box says its own place. */
  readonly heads: readonly string[];
  /** What the names of the lines are of; empty where lines have none. */
  readonly down: string;
  readonly lines: readonly BoxLine[];
}

interface BoxLine {
  readonly name: string;
  /** The place each box is for, as far as head and line do not say it; null where nothing is wanted. */
  readonly boxes: readonly (string | null)[];
}

/** Boxes side by side that leave room for a name in half a page. */
const MOST = 4;

const distinct = (values: readonly string[]): string[] => [...new Set(values)];

/** Every box with its place in it. */
function listed(places: readonly Place[], axes: readonly string[]): BoxGrid {
  const texts = places.map((place) => placeText(place, axes));
  const lines = Array.from({ length: Math.ceil(texts.length / MOST) }, (_, k) => ({
    name: '',
    boxes: texts.slice(k * MOST, (k + 1) * MOST),
  }));
  return { heads: [], down: '', lines };
}

/**
 * Places side by side: the last axes are the columns, as many of them as fit, the others the lines. Bench order goes
 * through the last axis fastest, so that the lines keep it.
 */
export function boxGrid(places: readonly Place[], axes: readonly string[]): BoxGrid {
  if (axes.length < 2) return listed(places, axes);
  for (let across = axes.length - 1; across >= 1; across--) {
    const [down, columns] = [axes.slice(0, axes.length - across), axes.slice(axes.length - across)];
    const heads = distinct(places.map((place) => placeText(place, columns)));
    if (heads.length > MOST) continue;
    const names = distinct(places.map((place) => placeText(place, down)));
    // Where little is left to read, a table would be mostly holes.
    if (names.length * heads.length >= 2 * places.length) continue;
    const wanted = new Set(places.map((place) => placeText(place, axes)));
    return {
      heads,
      down: down.join('/'),
      lines: names.map((name) => ({
        name,
        boxes: heads.map((head) => (wanted.has(`${name}/${head}`) ? '' : null)),
      })),
    };
  }
  return listed(places, axes);
}
