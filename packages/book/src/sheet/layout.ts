/** Arrangements of cylinders for which there is an outline. */
export const LAYOUTS = ['inline', 'v', 'twin'] as const;
export type Layout = (typeof LAYOUTS)[number];
