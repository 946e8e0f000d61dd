import { type Body, type Book, gaugeJudgement } from '@fettle/book';
import { CATALOGUE, failed, issue, ok } from '@fettle/core';
import { entered, overZero, present, quantities } from '../entered.ts';
import type { Register } from '../registration.ts';
import { gaugeJudgementLines } from '../words/start-up-lines.ts';

const WHEN = ['as-found', 'start-up', 'break-in', 'later'] as const;

export const registerGauge: Register = (program, run) => {
  program
    .command('gauge <job> <pressure> <speed>')
    .description('enter what the oil gauge showed, at which speed and how hot')
    .option('--temperature <t>', 'of the oil in the sump')
    .option('--oil <grade>', 'a grade of the spec sheet')
    .option('--with <instrument>', 'the gauge')
    .option('--when <when>', WHEN.join(', '), 'later')
    .option('--note <text>')
    .addHelpText(
      'after',
      '\nExample:\n  fettle gauge linnet 7.5psi 600rpm --temperature 93degC --with oil-gauge --when as-found',
    )
    .action(
      (
        job: string,
        pressure: string,
        speed: string,
        said: { temperature?: string; oil?: string; with?: string; when: string; note?: string },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            (bench) => {
              const issues = [
                ...quantities([
                  ['pressure', pressure, 'pressure'],
                  ['speed', speed, 'speed'],
                  ['temperature', said.temperature, 'temperature'],
                ]),
                ...overZero('pressure', pressure, 'pressure', true),
                ...overZero('speed', speed, 'speed', true),
              ];
              const grades = Object.keys(bench.book().sheet?.oil?.grades ?? {});
              if (said.oil !== undefined && !grades.includes(said.oil))
                issues.push(
                  issue(
                    'oil/unknown-grade',
                    '--oil',
                    said.oil,
                    grades.join(', ') || 'none on the sheet',
                    grades.length > 0
                      ? `The spec sheet has no oil "${said.oil}". Choose one of ${grades.join(', ')}.`
                      : 'The spec sheet names no oils. Leave --oil out and say it in --note.',
                  ),
                );
              const when = WHEN.find((known) => known === said.when);
              if (!when)
                issues.push(
                  issue(
                    'gauge/when',
                    '--when',
                    said.when,
                    WHEN.join(', '),
                    `Say --when as one of ${WHEN.join(', ')}.`,
                  ),
                );
              const instruments = bench.book().instruments;
              if (said.with === undefined || !instruments.has(said.with))
                issues.push(
                  issue(
                    'instrument/unknown',
                    '--with',
                    said.with ?? 'none',
                    [...instruments.keys()].join(', '),
                    instruments.size > 0
                      ? `Which gauge was it? Name one with --with: ${[...instruments.keys()].join(', ')}.`
                      : 'Which gauge was it? Declare one with "fettle tools" first, then name it with --with.',
                  ),
                );
              if (issues.length > 0) return failed(...issues);
              return ok({
                kind: 'gauge-reading',
                body: present({
                  pressure,
                  speed,
                  temperature: said.temperature,
                  oil: said.oil,
                  instrument: said.with,
                  when,
                  note: said.note,
                }) as Body<'gauge-reading'>,
              });
            },
            (book) =>
              [
                `Gauge: ${pressure} at ${speed}${said.temperature ? `, ${said.temperature}` : ''}.`,
                ...judgedLast(book),
              ].join('\n'),
          ),
        ),
    );
};

/** The reading just written, judged at once; nothing where the circuit or its temperature is not there to judge by. */
function judgedLast(book: Book): string[] {
  const last = book.gaugeReadings.at(-1);
  const judgement = last && gaugeJudgement(book, CATALOGUE, last);
  return judgement?.ok ? gaugeJudgementLines(book, judgement.value) : [];
}
