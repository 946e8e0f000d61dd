import { asFittedNow, expectedPressure, gaugeJudgement, Reckoning, startUpWords } from '@fettle/book';
import { CATALOGUE, failed, ok, standardUncertainty, type Uncertain } from '@fettle/core';
import type { Register } from '../registration.ts';
import { sheetConditions } from '../words/pressure.ts';
import { STOP_RULES, startUpLines } from '../words/start-up-lines.ts';

const q = (one: Uncertain) => ({ value: one.value, standard_uncertainty: standardUncertainty(one) });

/** Between cold and hot the oil is looked at in so many steps. */
const STEPS = 4;

export const registerFirstStart: Register = (program, run) => {
  program
    .command('first-start <job>')
    .description(
      'stop rules first, then what the gauge should show while the engine warms, and the readings so far',
    )
    .addHelpText('after', '\nExample:\n  fettle first-start linnet')
    .action((job: string) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const conditions = sheetConditions(book);
        if (!conditions)
          return failed({
            code: 'oil/no-circuit',
            at: '/oil',
            got: 'a spec sheet without oil',
            wanted: 'grades, speeds and a circuit',
            message: `The spec sheet says nothing of oil, so nothing can be expected of the gauge. The stop rule stands: ${STOP_RULES[0]}`,
          });
        const cold = conditions.cold?.si ?? 293.15;
        const temperatures = Array.from(
          { length: STEPS + 1 },
          (_, i) => cold + ((conditions.hot.si - cold) * i) / STEPS,
        );
        const reckoning = new Reckoning(book, asFittedNow(book), CATALOGUE);
        const expectations = [];
        for (const temperature of temperatures)
          for (const { si: speed } of conditions.speeds) {
            const expected = expectedPressure(book, reckoning, { speed, temperature });
            if (!expected.ok) return expected;
            expectations.push({ speed, temperature, expected: expected.value });
          }
        const readings = book.gaugeReadings
          .filter(({ body }) => body.when !== 'as-found')
          .flatMap((reading) => {
            const judgement = gaugeJudgement(book, CATALOGUE, reading);
            return judgement.ok ? [{ when: reading.body.when, judgement: judgement.value }] : [];
          });
        return ok({
          json: {
            job: book.job,
            stop_rules: STOP_RULES,
            cautions: startUpWords.START_CAUTIONS,
            expected: expectations.map(({ expected, ...at }) => ({ ...at, pressure: q(expected) })),
            readings: readings.map(({ when, judgement: { shown, expected, ...rest } }) => ({
              when,
              ...rest,
              shown: q(shown),
              expected: q(expected),
            })),
          },
          text: startUpLines(book, expectations, readings).join('\n'),
        });
      }),
    );
};
