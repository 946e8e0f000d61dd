import { failed, type Outcome, ok } from '../issue.ts';
import { varianceRatioAbove } from '../uncertainty/variance-ratio.ts';

/** What readings of a study differ by: the parts, the occasions or people, both together, and mere repetition. */
export type StudySource = 'parts' | 'occasions' | 'interaction' | 'repeats';

export interface StudyLine {
  readonly source: StudySource;
  /** Sum of squares [unit²]. */
  readonly squares: number;
  readonly dof: number;
  /** Mean square [unit²]. */
  readonly meanSquare: number;
  /** Against what it was tested; absent for the last line. */
  readonly ratio?: number;
  /** Probability of such a ratio or a greater one where there is no such effect. */
  readonly chance?: number;
}

export interface GaugeStudy {
  readonly parts: number;
  readonly occasions: number;
  readonly repeats: number;
  readonly mean: number;
  readonly lines: readonly StudyLine[];
  /** Sum of squares of everything about the mean. */
  readonly totalSquares: number;
  /** Interaction taken together with mere repetition: it did not show, or could not be told from it. */
  readonly pooled: boolean;
  /** Variance components [unit²]; one that came out negative is zero here. */
  readonly variance: Readonly<Record<StudySource, number>>;
  readonly setToZero: readonly StudySource[];
  /** Of one reading of one part on one occasion, standard deviation [unit]. */
  readonly repeatability: number;
  /** Degrees of freedom of the repeatability. */
  readonly dof: number;
  /** What occasions, or people, add: √(occasions + interaction) [unit]. */
  readonly reproducibility: number;
  /** Of one reading on any occasion: √(repeatability² + reproducibility²) [unit]. */
  readonly gauge: number;
  /** Degrees of freedom of that. @source jcgm-100 G.4.1, on the mean squares it is made of */
  readonly gaugeDof: number;
}

/** An interaction likelier than this by chance is taken together with the repeats. Common practice, no source. */
export const POOL_ABOVE = 0.25;

/**
 * Repeatability and reproducibility by analysis of variance, all effects random, from p parts each read r times on each
 * of o occasions (or by each of o people).
 *
 *     σ²_repeats = MS_e,  σ²_int = (MS_po − MS_e)/r,  σ²_occ = (MS_o − MS_po)/(p r),  σ²_parts = (MS_p − MS_po)/(o r)
 *
 * An interaction that does not show is taken together with the repeats, and what is left is tested against both. With
 * one part or one occasion the table has the lines that are left; with neither, it is repeated readings of one thing.
 *
 * @param readings  by part, by occasion, by repeat [any one unit]; as many repeats everywhere
 * @source montgomery-doe for the model, its table and the two worked examples it is held to
 */
export function gaugeStudy(readings: readonly (readonly (readonly number[])[])[]): Outcome<GaugeStudy> {
  const p = readings.length;
  const o = readings[0]?.length ?? 0;
  const r = readings[0]?.[0]?.length ?? 0;
  const uneven = readings.some((part) => part.length !== o || part.some((cell) => cell.length !== r));
  if (uneven || p * o * r < 2)
    return failed({
      code: uneven ? 'study/uneven' : 'study/too-few',
      at: 'readings',
      got: readings.map((part) => part.map((cell) => cell.length).join('+')).join(', ') || 'none',
      wanted: uneven ? 'every part read as often on every occasion' : 'two readings or more',
      message: uneven
        ? 'Every part must be read on every occasion, and as often each time: read what is missing, or leave that part or that occasion out.'
        : 'One reading has no spread. Read the same thing again, five times or more.',
    });
  const all = readings.flatMap((part) => part.flat());
  const mean = accurateMean(all);
  const partMeans = readings.map((part) => accurateMean(part.flat()));
  const occasionMeans = Array.from({ length: o }, (_, j) =>
    accurateMean(readings.flatMap((part) => part[j] ?? [])),
  );
  const cells = readings.map((part) => part.map(accurateMean));
  const totalSquares = squaresAbout(all, mean);
  const parts = o * r * squaresAbout(partMeans, mean);
  const occasions = p * r * squaresAbout(occasionMeans, mean);
  const interaction =
    r *
    sum(
      cells.flatMap((row, i) =>
        row.map((cell, j) => (cell - (partMeans[i] ?? 0) - (occasionMeans[j] ?? 0) + mean) ** 2),
      ),
    );
  const repeats = sum(
    readings.flatMap((part, i) => part.map((cell, j) => squaresAbout(cell, cells[i]?.[j] ?? mean))),
  );
  const dof = { parts: p - 1, occasions: o - 1, interaction: (p - 1) * (o - 1), repeats: p * o * (r - 1) };
  if (dof.repeats + dof.interaction === 0)
    return failed({
      code: 'study/no-repeats',
      at: 'readings',
      got: `${p} parts, ${o} occasions, each read once`,
      wanted: 'each part read twice or more',
      message:
        'Nothing was read twice, so nothing tells repeatability from what was read. Read each part again.',
    });

  const alone = line('repeats', repeats, dof.repeats);
  const crossed = line('interaction', interaction, dof.interaction);
  const tested = against(crossed, alone);
  const pooled = dof.interaction > 0 && (dof.repeats === 0 || (tested.chance ?? 0) > POOL_ABOVE);
  const error = pooled ? line('repeats', repeats + interaction, dof.repeats + dof.interaction) : alone;
  const base = pooled || dof.interaction === 0 ? error : tested;
  const byPart = against(line('parts', parts, dof.parts), base);
  const byOccasion = against(line('occasions', occasions, dof.occasions), base);
  const raw: Record<StudySource, number> = {
    parts: dof.parts === 0 ? 0 : (byPart.meanSquare - base.meanSquare) / (o * r),
    occasions: dof.occasions === 0 ? 0 : (byOccasion.meanSquare - base.meanSquare) / (p * r),
    interaction: pooled || dof.interaction === 0 ? 0 : (tested.meanSquare - error.meanSquare) / r,
    repeats: error.meanSquare,
  };
  const setToZero = (Object.keys(raw) as StudySource[]).filter((source) => raw[source] < 0);
  const variance = { ...raw };
  for (const source of setToZero) variance[source] = 0;
  // What one reading varies by, as a sum of mean squares with the factors they come in with.
  const made: (readonly [factor: number, line: StudyLine])[] = [[1, error]];
  if (variance.interaction > 0) made.push([1 / r, tested], [-1 / r, error]);
  if (variance.occasions > 0) made.push([1 / (p * r), byOccasion], [-1 / (p * r), base]);
  const gaugeVariance = variance.repeats + variance.occasions + variance.interaction;
  return ok({
    parts: p,
    occasions: o,
    repeats: r,
    mean,
    lines: [byPart, byOccasion, ...(pooled ? [] : [tested]), error].filter((one) => one.dof > 0),
    totalSquares,
    pooled,
    variance,
    setToZero,
    repeatability: Math.sqrt(variance.repeats),
    dof: error.dof,
    reproducibility: Math.sqrt(variance.occasions + variance.interaction),
    gauge: Math.sqrt(gaugeVariance),
    gaugeDof: gaugeVariance === 0 ? error.dof : gaugeVariance ** 2 / squaredShares(made),
  });
}

/** Σ (c MS)²/ν, mean squares that come in twice taken together first. */
function squaredShares(made: readonly (readonly [factor: number, line: StudyLine])[]): number {
  const factors = new Map<StudyLine, number>();
  for (const [factor, one] of made) factors.set(one, (factors.get(one) ?? 0) + factor);
  return [...factors].reduce((s, [one, factor]) => s + (factor * one.meanSquare) ** 2 / one.dof, 0);
}

const line = (source: StudySource, squares: number, dof: number): StudyLine => ({
  source,
  squares,
  dof,
  meanSquare: dof === 0 ? 0 : squares / dof,
});

function against(one: StudyLine, base: StudyLine): StudyLine {
  if (one.dof === 0 || base.dof === 0) return one;
  // Readings all alike: nothing is more than nothing.
  const ratio =
    base.meanSquare > 0
      ? one.meanSquare / base.meanSquare
      : one.meanSquare > 0
        ? Number.POSITIVE_INFINITY
        : 0;
  return { ...one, ratio, chance: varianceRatioAbove(ratio, one.dof, base.dof) };
}

const sum = (xs: readonly number[]): number => xs.reduce((s, x) => s + x, 0);
const squaresAbout = (xs: readonly number[], mean: number): number => sum(xs.map((x) => (x - mean) ** 2));

/** A second pass takes out what the first sum rounded away. */
function accurateMean(xs: readonly number[]): number {
  const rough = sum(xs) / xs.length;
  return rough + sum(xs.map((x) => x - rough)) / xs.length;
}
