/** Labels by width and height [mm]: what goes round a valve stem, what most parts take, what hangs on a crate. */
export const TAG_SIZES = ['50x30', '65x40', '100x55'] as const;
export type TagSize = (typeof TAG_SIZES)[number];

/** No printer reaches the edge of its paper [mm]. */
const UNPRINTED = 5;
const PAPERS = { a4: [210, 297], letter: [215.9, 279.4] } as const;

/** How labels lie on a sheet: columns and rows, and the edge left free on each side [mm]. */
export function tagGrid(size: TagSize, paper: keyof typeof PAPERS) {
  const [width, height] = size.split('x').map(Number) as [number, number];
  const [across, down] = PAPERS[paper];
  const columns = Math.floor((across - 2 * UNPRINTED) / width);
  const rows = Math.floor((down - 2 * UNPRINTED) / height);
  return {
    width,
    height,
    columns,
    rows,
    left: (across - columns * width) / 2,
    top: (down - rows * height) / 2,
  };
}
