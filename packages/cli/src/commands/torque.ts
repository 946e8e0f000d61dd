import {
  type Body,
  type Book,
  type Fastener,
  type Place,
  placeFrom,
  questionOfTorque,
  torqueAssessment,
  torqueDecided,
  torqueDoubtWords,
} from '@fettle/book';
import { failed, issue, type Outcome, ok } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Bench } from '../bench.ts';
import { entered, overZero, present, quantities } from '../entered.ts';
import type { Register } from '../registration.ts';

interface Said {
  readonly at?: string;
  readonly pass: string;
  readonly of: string;
  readonly condition?: string;
  readonly with?: string;
  readonly confirm?: boolean;
  readonly firstSaid?: string;
  readonly note?: string;
  readonly stands?: boolean;
  readonly why?: string;
}

export const registerTorque: Register = (program, run) => {
  program
    .command('torque <job> <fastener> [torque]')
    .description(
      'log a torque that was applied; it is recorded whatever it is, and asked about when it cannot be',
    )
    .option('--at <place>', 'which of them; all when absent')
    .option('--pass <n>', 'which pass', '1')
    .option('--of <n>', 'of how many', '1')
    .option('--condition <condition>', 'of the threads: dry, oiled …; as on the sheet when absent')
    .option('--with <instrument>')
    .option('--confirm', 'keep it although it is asked about')
    .option('--first-said <torque>')
    .option('--note <text>')
    .option('--stands', 'decide that what was logged stands: on other threads, or after a cover was opened')
    .option('--why <text>', 'needed with --stands')
    .addHelpText(
      'after',
      `
Examples:
  fettle torque linnet rod 41lbf.ft --at 2 --pass 2 --of 2 --condition oiled --with torque-wrench
  fettle torque linnet main-cap --stands --why "the pan was off for the pickup, the caps were not touched"`,
    )
    .action((job: string, id: string, said: string | undefined, opts: Said) =>
      run(async (context) =>
        entered(
          await context.bench(job),
          (bench) => (opts.stands ? decision(bench, id, said, opts) : torquePass(bench, id, said, opts)),
          (book) => afterwards(book, id, said, opts),
        ),
      ),
    );
};

/** What was written, and what still speaks against the joint. */
function afterwards(book: Book, id: string, said: string | undefined, opts: Said): string {
  const fastener = book.sheet?.fasteners.find((known) => known.id === id);
  const doubts = fastener ? [...torqueDoubtWords(book, torqueAssessment(book, fastener)).values()] : [];
  const written = opts.stands
    ? `${id}: what was logged stands, because ${opts.why}.`
    : `${id}: ${said} logged, pass ${opts.pass} of ${opts.of}.`;
  return [written, ...doubts.map((words) => `Not proven. ${words}.`)].join('\n');
}

function fastenerNamed({ sheet }: Book, id: string): Outcome<Fastener> {
  const fastener = sheet?.fasteners.find((known) => known.id === id);
  if (fastener) return ok(fastener);
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

const placeSaid = ({ sheet }: Book, fastener: Fastener, at: string | undefined): Outcome<Place> =>
  at === undefined ? ok({}) : placeFrom(sheet ?? { axes: {} }, fastener, at);

function decision(bench: Bench, id: string, said: string | undefined, opts: Said): Outcome<Draft> {
  const book = bench.book();
  const fastener = fastenerNamed(book, id);
  if (!fastener.ok) return fastener;
  if (said !== undefined)
    return failed(
      issue(
        'command/bad-use',
        'torque',
        `${said} with --stands`,
        'one of them',
        'Log the torque first, then decide with --stands that it does.',
      ),
    );
  const place = placeSaid(book, fastener.value, opts.at);
  if (!place.ok) return place;
  const body = torqueDecided(torqueAssessment(book, fastener.value), place.value, opts.why ?? '');
  return body.ok ? ok({ kind: 'torque-decided', body: body.value }) : body;
}

function torquePass(bench: Bench, id: string, said: string | undefined, opts: Said): Outcome<Draft> {
  const book = bench.book();
  const { instruments } = book;
  const found = fastenerNamed(book, id);
  if (!found.ok) return found;
  const fastener = found.value;
  if (said === undefined)
    return failed(
      issue(
        'torque/missing',
        'torque',
        'nothing',
        'a torque such as 41lbf.ft',
        'Say what it was tightened to, or --stands with --why for what was logged before.',
      ),
    );
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
  const place = placeSaid(book, fastener, opts.at);
  if (!place.ok) issues.push(...place.issues);
  if (issues.length > 0) return failed(...issues);
  const question = questionOfTorque(fastener, said, opts.condition);
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
