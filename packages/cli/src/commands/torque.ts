import { type Body, type Place, placeFrom, questionOfTorque } from '@fettle/book';
import { failed, issue, type Outcome, ok } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Bench } from '../bench.ts';
import { entered, overZero, present, quantities } from '../entered.ts';
import type { Register } from '../registration.ts';

export const registerTorque: Register = (program, run) => {
  program
    .command('torque <job> <fastener> <torque>')
    .description(
      'log a torque that was applied; it is recorded whatever it is, and asked about when it cannot be',
    )
    .option('--at <place>', 'which of them; all when absent')
    .option('--pass <n>', 'which pass', '1')
    .option('--of <n>', 'of how many', '1')
    .option('--condition <condition>', 'dry, oiled …')
    .option('--with <instrument>')
    .option('--confirm', 'keep it although it is asked about')
    .option('--first-said <torque>')
    .option('--note <text>')
    .addHelpText(
      'after',
      '\nExample:\n  fettle torque linnet rod 41lbf.ft --at 2 --pass 2 --of 2 --condition oiled --with torque-wrench',
    )
    .action(
      (
        job: string,
        id: string,
        said: string,
        opts: {
          at?: string;
          pass: string;
          of: string;
          condition?: string;
          with?: string;
          confirm?: boolean;
          firstSaid?: string;
          note?: string;
        },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            (bench) => torquePass(bench, id, said, opts),
            `${id}: ${said} logged, pass ${opts.pass} of ${opts.of}.`,
          ),
        ),
    );
};

function torquePass(
  bench: Bench,
  id: string,
  said: string,
  opts: {
    at?: string;
    pass: string;
    of: string;
    condition?: string;
    with?: string;
    confirm?: boolean;
    firstSaid?: string;
    note?: string;
  },
): Outcome<Draft> {
  const { sheet, instruments } = bench.book();
  const fastener = sheet?.fasteners.find((known) => known.id === id);
  if (!fastener) {
    const known = (sheet?.fasteners ?? []).map((one) => one.id).join(', ');
    return failed(
      issue(
        'fastener/unknown',
        'fastener',
        id,
        known || 'none on the sheet',
        `The spec sheet has no fastener "${id}". It has ${known || 'none'}.`,
      ),
    );
  }
  const issues = [...quantities([['torque', said, 'torque']]), ...overZero('torque', said, 'torque')];
  const [pass, of] = [Number(opts.pass), Number(opts.of)];
  if (!(Number.isInteger(pass) && Number.isInteger(of) && pass >= 1 && pass <= of))
    issues.push(
      issue(
        'torque/pass',
        '--pass',
        `${opts.pass} of ${opts.of}`,
        'whole numbers, pass not over of',
        'Say which pass of how many, such as --pass 2 --of 3.',
      ),
    );
  if (opts.with !== undefined && !instruments.has(opts.with))
    issues.push(
      issue(
        'instrument/unknown',
        '--with',
        opts.with,
        [...instruments.keys()].join(', '),
        `No instrument "${opts.with}" is declared. Declare it with "fettle tools", or take one of ${[...instruments.keys()].join(', ') || 'none yet'}.`,
      ),
    );
  const place: Outcome<Place> =
    opts.at === undefined ? ok({}) : placeFrom(sheet ?? { axes: {} }, fastener, opts.at);
  if (!place.ok) issues.push(...place.issues);
  if (issues.length > 0) return failed(...issues);
  const question = questionOfTorque(fastener, said);
  if (question && !opts.confirm)
    return failed({
      ...question,
      message: `${question.message} Keep it with --confirm; name a slip with --first-said.`,
    });
  return ok({
    kind: 'torque-pass',
    body: present({
      fastener: id,
      place: place.ok && Object.keys(place.value).length > 0 ? place.value : undefined,
      torque: said,
      pass,
      of,
      condition: opts.condition,
      instrument: opts.with,
      asked: question
        ? { code: question.code, question: question.message, first_said: opts.firstSaid ?? said }
        : opts.firstSaid === undefined
          ? undefined
          : {
              code: 'torque/corrected',
              question: 'Corrected by its writer before it was entered.',
              first_said: opts.firstSaid,
            },
      note: opts.note,
    }) as Body<'torque-pass'>,
  });
}
