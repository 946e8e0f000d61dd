import {
  asFittedNow,
  asFound,
  type Book,
  type Calibration,
  calibrated,
  type Diagnosis,
  diagnosed,
  diagnosisWords,
  Reckoning,
} from '@fettle/book';
import { CATALOGUE, type Outcome, ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { diagnosisLines } from '../words/diagnosis-lines.ts';

interface Said {
  readonly beforeStrip?: boolean;
  readonly now?: boolean;
  readonly assumptions?: boolean;
}

export const registerDiagnose: Register = (program, run) => {
  program
    .command('diagnose <job>')
    .description(
      'from gauge readings to what could be wrong, what they cannot tell apart, and the test that would',
    )
    .option('--before-strip', 'as if nothing were measured yet: the engine still in the vehicle')
    .option('--now', 'the engine as it is put together now, by readings since its start-up')
    .option(
      '--assumptions',
      'show everything assumed: how likely each fault beforehand, how bad, the model’s doubts',
    )
    .addHelpText(
      'after',
      `
Readings are entered with "fettle gauge", with the temperature of the oil and a declared gauge.

Examples:
  fettle diagnose linnet --before-strip
  fettle diagnose linnet
  fettle diagnose linnet --before-strip --assumptions`,
    )
    .action((job: string, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? answered(bench.value.book(), said) : bench;
      }),
    );
};

function answered(book: Book, said: Said): Outcome<Reply> {
  const when = said.now ? 'since' : 'as-found';
  const known = said.beforeStrip ? 'before-strip' : 'measured';
  const reckoning = new Reckoning(book, said.now ? asFittedNow(book) : asFound(book), CATALOGUE);
  const diagnosis = diagnosed(book, reckoning, { known, when });
  if (!diagnosis.ok) return diagnosis;
  const calibration = said.beforeStrip ? undefined : calibrated(book, reckoning, when);
  if (calibration && !calibration.ok) return calibration;
  return ok({
    json: diagnosisJson(book, diagnosis.value, calibration?.value),
    text: diagnosisLines({
      book,
      diagnosis: diagnosis.value,
      calibration: calibration?.value,
      assumptions: said.assumptions === true,
    }).join('\n'),
  });
}

function diagnosisJson(book: Book, diagnosis: Diagnosis, calibration: Calibration | undefined) {
  const { readings, families, alike, tests, order, assumptions, leftOut, known, when, fit } = diagnosis;
  const gauges = new Set(readings.map(({ instrument }) => instrument)).size;
  return {
    job: book.job,
    known,
    when,
    readings: readings.map((one) => ({
      entry: one.entry,
      pressure: one.pressure,
      standard_uncertainty: one.u,
      common_share: one.common,
      speed: one.speed,
      temperature: one.temperature,
      oil: one.grade,
      instrument: one.instrument,
    })),
    left_out: leftOut.map(({ entry, why }) => ({ entry, why })),
    families: families.map(({ family, probability, bayesFactor, severity, fitted }) => ({
      id: family.id,
      kind: family.kind,
      name: family.name,
      prior: family.prior,
      probability,
      words: diagnosisWords.chanceWords(probability),
      bayes_factor: bayesFactor,
      severity: severity && { ...severity, of: family.severity!.of },
      fitted,
    })),
    not_told_apart: alike.map((group) => ({
      families: group.map(({ id }) => id),
      words: diagnosisWords.alikeWords(group, gauges),
    })),
    fit,
    tests: tests.map(({ plan, probe, bits, outcomes }) => ({
      id: plan.id,
      name: plan.name,
      how: plan.how,
      hours: plan.hours,
      cautions: plan.cautions,
      at: probe?.words,
      measures: probe?.measures ?? 'look',
      bits,
      outcomes: outcomes.map(({ from, to, words, chance, families: then }) => ({
        from,
        to,
        words,
        chance,
        families: Object.fromEntries(order.map(({ id }, f) => [id, then[f]])),
      })),
    })),
    assumptions,
    calibration: calibration && {
      readings: calibration.readings.length,
      distance: calibration.distance,
      words: diagnosisWords.calibrationWords(calibration),
      constants: calibration.constants.map(({ doubt, value, u, assumed }) => ({
        id: doubt.id,
        name: doubt.name,
        value,
        standard_uncertainty: u,
        assumed: { value: assumed.value, standard_uncertainty: assumed.u },
      })),
      pressures: calibration.pressures.map(({ speed, temperature, uncalibrated, calibrated: with_ }) => ({
        speed,
        temperature,
        uncalibrated: { value: uncalibrated.value, standard_uncertainty: uncalibrated.u },
        calibrated: { value: with_.value, standard_uncertainty: with_.u },
      })),
    },
  };
}
