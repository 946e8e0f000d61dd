import { expect, it } from 'vitest';
import { threadFrom } from './designation.ts';
import { threadLimits, unifiedLimits } from './thread-limits.ts';

function thread(text: string) {
  const read = threadFrom(text);
  if (!read.ok) throw new Error(text);
  return read.value;
}
function limits(text: string) {
  const found = threadLimits(thread(text));
  if (!found.ok) throw new Error(text);
  return found.value;
}

/** ASME B1.1 table, from memory: major min, pitch min, minor max, pitch max [in]. */
it.each([
  ['1/4-20 UNC', 0.2408, 0.2127, 0.207, 0.2224],
  ['3/8-16 UNC', 0.3643, 0.3287, 0.321, 0.3401],
  ['7/16-14 UNC', 0.4258, 0.385, 0.376, 0.3972],
  ['1/4-28 UNF', 0.2425, 0.2225, 0.22, 0.2311],
])(
  '2A and 2B limits of %s are the printed ones within their rounding',
  (text, major, pitchMin, minor, pitchMax) => {
    const found = unifiedLimits(thread(text));
    expect(found.externalMajorMin / 0.0254).toBeCloseTo(major, 3);
    expect(Math.abs(found.externalPitchMin / 0.0254 - pitchMin)).toBeLessThan(2e-4);
    expect(Math.abs(found.internalMinorMax / 0.0254 - minor)).toBeLessThan(6e-4);
    expect(Math.abs(found.internalPitchMax / 0.0254 - pitchMax)).toBeLessThan(2e-4);
  },
);

/** ISO 965-2 limits of size, from memory [mm]. */
it.each([
  ['M6x1', 5.794, 5.212, 5.153, 5.5],
  ['M8x1.25', 7.76, 7.042, 6.912, 7.348],
  ['M10x1.5', 9.732, 8.862, 8.676, 9.206],
  ['M12x1.75', 11.701, 10.679, 10.441, 11.063],
  ['M16x2', 15.682, 14.503, 14.21, 14.913],
])('6g and 6H limits of %s are the printed ones', (text, major, pitchMin, minor, pitchMax) => {
  const found = limits(text);
  expect(found.externalMajorMin * 1000).toBeCloseTo(major, 3);
  expect(Math.abs(found.externalPitchMin * 1000 - pitchMin)).toBeLessThan(1.1e-3);
  expect(Math.abs(found.internalMinorMax * 1000 - minor)).toBeLessThan(1.1e-3);
  expect(Math.abs(found.internalPitchMax * 1000 - pitchMax)).toBeLessThan(1.1e-3);
});

it.each([
  ['M5x0.8', 5.6, 2.8],
  ['M6x1', 11.2, 5.6],
  ['M8x1', 11.2, 5.6],
  ['M10x1.25', 11.2, 5.6],
  ['M12x1.25', 22.4, 11.2],
  ['M14x1.5', 22.4, 11.2],
  ['M20x2.5', 22.4, 11.2],
  ['M24x3', 45, 22.4],
  ['M30x3.5', 45, 22.4],
])(
  'the tabulated tolerances of %s lie within one rounding step of the formulas of the standard',
  (text, to, over) => {
    const { pitch, major } = thread(text);
    const found = limits(text);
    const p = pitch * 1000;
    const mean = Math.sqrt(over * to);
    const external = 90 * p ** 0.4 * mean ** 0.1;
    const allowance = 15 + 11 * p;
    const basic = (major - 0.649519 * pitch) * 1e6;
    const step = 0.06;
    const td2 = basic - found.externalPitchMin * 1e6 - allowance;
    expect(Math.abs(td2 - external)).toBeLessThan(step * external);
    const internal = found.internalPitchMax * 1e6 - basic;
    expect(Math.abs(internal - 1.32 * external)).toBeLessThan(step * internal);
    const minor = (found.internalMinorMax - (major - 1.082532 * pitch)) * 1e6;
    const minorFormula = p >= 1 ? 230 * p ** 0.7 : 433 * p - 190 * p ** 1.22;
    expect(Math.abs(minor - minorFormula)).toBeLessThan(step * minor);
    const majorTolerance = (major - found.externalMajorMin) * 1e6 - allowance;
    expect(Math.abs(majorTolerance - (180 * p ** (2 / 3) - 3.15 / Math.sqrt(p)))).toBeLessThan(
      step * majorTolerance,
    );
  },
);

it('a metric thread outside the table says so', () => {
  const found = threadLimits(thread('M48x5'));
  expect(found.ok ? '' : found.issues[0]!.code).toBe('thread/no-limits');
});
