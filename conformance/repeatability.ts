import {
  type GaugeStudy,
  gaugeBlockLimit,
  gaugeStudy,
  lagOneCorrelation,
  micrometerLimit,
  pressureGaugeLimit,
  repeated,
  type StudyLine,
  type StudySource,
  varianceRatioAbove,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

function summary(readings: readonly number[]): Answers {
  const { mean, sd } = repeated(readings);
  return { mean, sd, autocorr_lag1: lagOneCorrelation(readings) ?? Number.NaN };
}

/** The first value, then low and high in turn. */
function alternating(given: Given): number[] {
  const pair = given.list('then_alternate');
  const rest = Array.from({ length: given.si('n') - 1 }, (_, i) => pair[i % 2] ?? Number.NaN);
  return [given.si('y_first'), ...rest];
}

function studied(readings: readonly (readonly (readonly number[])[])[]): GaugeStudy {
  const study = gaugeStudy(readings);
  if (!study.ok) throw new Error(JSON.stringify(study.issues));
  return study.value;
}

const lineOf = (study: GaugeStudy, source: StudySource): StudyLine =>
  study.lines.find((line) => line.source === source) ?? { source, squares: 0, dof: 0, meanSquare: 0 };

/** One reading of each instrument after another: the instruments are the parts of a one-way table. */
function oneWay(given: Given): Answers {
  const study = studied([1, 2, 3, 4, 5].map((i) => [given.list(`instrument_${i}`)]));
  const [between, within] = [lineOf(study, 'parts'), lineOf(study, 'repeats')];
  return {
    SS_between: between.squares,
    SS_within: within.squares,
    MS_between: between.meanSquare,
    MS_within: within.meanSquare,
    F: between.ratio ?? Number.NaN,
    R2: between.squares / study.totalSquares,
    s_within: study.repeatability,
    df_between: between.dof,
    df_within: study.dof,
  };
}

function crossed(given: Given): Answers {
  const occasions = given.si('occasions');
  const study = studied(
    given.table('readings').map((row) => {
      const repeats = row.length / occasions;
      return Array.from({ length: occasions }, (_, j) => row.slice(j * repeats, (j + 1) * repeats));
    }),
  );
  const { variance } = study;
  const [parts, people, both, error] = (['parts', 'occasions', 'interaction', 'repeats'] as const).map(
    (source) => lineOf(study, source),
  );
  return {
    ss_parts: parts!.squares,
    ss_occasions: people!.squares,
    ss_interaction: both!.squares,
    ss_error: error!.squares,
    ss_error_pooled: study.pooled ? error!.squares : Number.NaN,
    ss_total: study.totalSquares,
    ms_parts: parts!.meanSquare,
    ms_occasions: people!.meanSquare,
    ms_interaction: both!.meanSquare,
    ms_error: error!.meanSquare,
    f_parts: parts!.ratio ?? Number.NaN,
    f_occasions: people!.ratio ?? Number.NaN,
    p_occasions: people!.chance ?? Number.NaN,
    var_parts: variance.parts,
    var_occasions: variance.occasions,
    var_interaction: variance.interaction,
    var_error: variance.repeats,
    dof_error: study.dof,
    gauge_variance: study.repeatability ** 2 + study.reproducibility ** 2,
  };
}

export const REPEATABILITY_RUNNERS: Runners = {
  'strd-numacc1': (given) => summary(given.list('y')),
  'strd-numacc': (given) => summary(alternating(given)),
  'strd-mavro': (given) => summary(given.list('y')),
  'strd-sirstv-anova': oneWay,
  'study-': crossed,
  'variance-ratio-p': (given) => {
    const [f, above, below] = [given.list('f'), given.list('above'), given.list('below')];
    return { p: f.map((ratio, i) => varianceRatioAbove(ratio, above[i]!, below[i]!)) };
  },
  'micrometer-limit': (given) => ({ limit: given.list('range').map((range) => micrometerLimit(range)!) }),
  'pressure-gauge-limit': (given) => ({
    limit: given.list('class').map((accuracy) => pressureGaugeLimit(accuracy, given.si('span'))!),
  }),
  'gauge-block-limit': (given) => ({
    grade_1: given.list('length').map((length) => gaugeBlockLimit(length, 1)!),
    grade_2: given.list('length').map((length) => gaugeBlockLimit(length, 2)!),
  }),
};
