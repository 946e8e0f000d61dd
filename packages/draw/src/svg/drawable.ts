/** Beyond this, differences of numbers overflow and nothing can be drawn to scale. */
const MOST = 1e100;

/** Whether a number has a place in a picture. */
export const isDrawable = (value: number | undefined): value is number =>
  value !== undefined && Number.isFinite(value) && Math.abs(value) < MOST;
