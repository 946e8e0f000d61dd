/**
 * Factor for a nut that dilates under load, by its width across flats over the thread diameter:
 * C1 = −(s/D)² + 3.8 (s/D) − 2.61 from 1.4 up to 1.9, else 1.
 *
 * @source alexander-1977
 */
export function nutDilation(flatsOverDiameter: number): number {
  const x = flatsOverDiameter;
  return x >= 1.4 && x < 1.9 ? -(x ** 2) + 3.8 * x - 2.61 : 1;
}

/**
 * Factor for threads of the bolt bending, C2, by the strength ratio of nut to bolt thread Rs:
 * 5.594 − 13.682 R + 14.107 R² − 6.057 R³ + 0.9353 R⁴ over 1 up to 2.2, 0.897 at or under 1.
 *
 * @source alexander-1977
 */
export function boltThreadBending(ratio: number): number {
  const r = Math.min(ratio, 2.2);
  return r <= 1 ? 0.897 : 5.594 - 13.682 * r + 14.107 * r ** 2 - 6.057 * r ** 3 + 0.9353 * r ** 4;
}

/**
 * Factor for threads of the nut bending, C3: 0.728 + 1.769 R − 2.896 R² + 1.296 R³ from 0.4 to 1, 0.897 from 1.
 *
 * @source alexander-1977
 */
export function nutThreadBending(ratio: number): number {
  const r = Math.max(ratio, 0.4);
  return r >= 1 ? 0.897 : 0.728 + 1.769 * r - 2.896 * r ** 2 + 1.296 * r ** 3;
}
