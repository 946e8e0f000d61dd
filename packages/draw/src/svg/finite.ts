/** The value if it can be drawn at all. */
export function finite(value: number | undefined): number | undefined {
  return value !== undefined && Number.isFinite(value) ? value : undefined;
}

/** A value kept between two ends. */
export function kept(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}
