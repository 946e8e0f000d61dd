import {
  type Body,
  type Place,
  placeFrom,
  positionAt,
  questionOfTorque,
  unknownCharacteristic,
} from '@fettle/book';
import { failed, type Issue, type Outcome, ok, parseQuantity, type QuantityKind } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Command } from 'commander';
import type { Bench } from '../bench.ts';
import type { Handler, Register } from '../registration.ts';
import type { Reply } from '../reply.ts';

type Run = (handler: Handler) => Promise<void>;

/** The entries that are no readings: what is seen, gauge readings, torque, decisions, orders, notes. */
export const registerEntering: Register = (program, run) => {
  seen(program, run);
  gauge(program, run);
  torque(program, run);
  decide(program, run);
  orders(program, run);
  note(program, run);
};

const issue = (code: string, at: string, got: string, wanted: string, message: string): Issue => ({
  code,
  at,
  got,
  wanted,
  message,
});

/** Opens the job, makes the draft, writes it, and says a sentence. */
async function entered(
  bench: Outcome<Bench>,
  draft: (bench: Bench) => Outcome<Draft>,
  text: string,
): Promise<Outcome<Reply>> {
  if (!bench.ok) return bench;
  const made = draft(bench.value);
  if (!made.ok) return made;
  const written = await bench.value.write([made.value]);
  return written.ok ? ok({ json: written.value[0], text }) : written;
}

const present = <T extends Record<string, unknown>>(fields: T) =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };

function seen(program: Command, run: Run): void {
  program
    .command('see <job> <characteristic> <found>')
    .description('enter what was seen, where nothing is measured')
    .option('--at <place>')
    .option('--part <part>')
    .option('--as-wanted', 'it is as the sheet wants it')
    .option('--not-as-wanted', 'it is not')
    .option('--note <text>')
    .addHelpText(
      'after',
      '\nExample:\n  fettle see linnet crank.main-cap-arrow "arrow to the rear" --at 2 --not-as-wanted',
    )
    .action(
      (
        job: string,
        id: string,
        found: string,
        said: { at?: string; part?: string; asWanted?: boolean; notAsWanted?: boolean; note?: string },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            (bench) => {
              const book = bench.book();
              const characteristic = book.characteristics.get(id);
              if (!characteristic) return failed(unknownCharacteristic(book, id));
              if (characteristic.kind !== 'seen')
                return failed(
                  issue(
                    'seen/is-measured',
                    id,
                    'what was seen',
                    'a reading',
                    `${characteristic.name} is measured. Enter it with "fettle read".`,
                  ),
                );
              if (said.asWanted === said.notAsWanted)
                return failed(
                  issue(
                    'seen/undecided',
                    'as wanted',
                    'not said',
                    '--as-wanted or --not-as-wanted',
                    `Wanted is: ${characteristic.wanted}. Say --as-wanted or --not-as-wanted.`,
                  ),
                );
              const place: Outcome<Place> =
                said.at === undefined
                  ? ok({})
                  : placeFrom(book.sheet ?? { axes: {} }, characteristic, said.at);
              if (!place.ok) return place;
              const position = characteristic.position && positionAt(characteristic.position, place.value);
              const state =
                said.part === undefined
                  ? position && book.positions.get(position)?.now?.state
                  : book.parts.get(said.part)?.current.id;
              if (position !== undefined && state === undefined)
                return failed(
                  issue(
                    'part/none-fitted',
                    position,
                    said.part ?? 'no part',
                    `a part entered and fitted at ${position}`,
                    `Nothing is entered as fitted at ${position}. Enter the part with "fettle part", or name one with --part.`,
                  ),
                );
              return ok({
                kind: 'seen',
                body: present({
                  characteristic: id,
                  state,
                  place: Object.keys(place.value).length > 0 ? place.value : undefined,
                  found,
                  as_wanted: said.asWanted === true,
                  note: said.note,
                }) as Body<'seen'>,
              });
            },
            `${id}: ${found}. Entered as ${said.asWanted ? 'wanted' : 'not wanted'}.`,
          ),
        ),
    );
}

/** Everything said must read as what it is. */
function quantities(said: readonly (readonly [string, string | undefined, QuantityKind])[]): Issue[] {
  return said.flatMap(([at, text, kind]) => {
    const read = text === undefined ? undefined : parseQuantity(text, kind);
    return read && !read.ok ? read.issues.map((one) => ({ ...one, at })) : [];
  });
}

const WHEN = ['as-found', 'start-up', 'break-in', 'later'] as const;

function gauge(program: Command, run: Run): void {
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
              const issues = quantities([
                ['pressure', pressure, 'pressure'],
                ['speed', speed, 'speed'],
                ['temperature', said.temperature, 'temperature'],
              ]);
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
                    `Which gauge was it? Name one with --with: ${[...instruments.keys()].join(', ') || 'declare one with "fettle tools" first'}.`,
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
            `Gauge: ${pressure} at ${speed}${said.temperature ? `, ${said.temperature}` : ''}.`,
          ),
        ),
    );
}

function torque(program: Command, run: Run): void {
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
}

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
  const issues = quantities([['torque', said, 'torque']]);
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
        `No instrument "${opts.with}" is declared.`,
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

function decide(program: Command, run: Run): void {
  program
    .command('decide <job> <part> <decision>')
    .description('what becomes of a part: reuse, machine or replace')
    .requiredOption('--why <text>', 'the reason; it is what the book is believed for')
    .option('--size <name>', 'a size of the spec sheet')
    .addHelpText(
      'after',
      '\nExample:\n  fettle decide linnet crank machine --size ".010 under" --why "main 3 and rod 2 are under their limits"',
    )
    .action((job: string, part: string, decision: string, said: { why: string; size?: string }) =>
      run(async (context) =>
        entered(
          await context.bench(job),
          (bench) => {
            const known = (['reuse', 'machine', 'replace'] as const).find((one) => one === decision);
            if (!known)
              return failed(
                issue(
                  'decision/unknown',
                  'decision',
                  decision,
                  'reuse, machine, replace',
                  `A part is reused, machined or replaced: say reuse, machine or replace, not "${decision}".`,
                ),
              );
            if (!bench.book().parts.has(part))
              return failed(
                issue(
                  'part/unknown',
                  'part',
                  part,
                  [...bench.book().parts.keys()].join(', '),
                  `No part "${part}" has been entered.`,
                ),
              );
            return ok({
              kind: 'disposition',
              body: {
                part,
                decision: known,
                why: said.why,
                ...(said.size !== undefined && { size: said.size }),
              },
            });
          },
          `${part}: ${decision}.`,
        ),
      ),
    );
}

const sum = (at: string, text: string | undefined): Issue[] =>
  text === undefined || Number(text) >= 0
    ? []
    : [
        issue(
          'number/unreadable',
          at,
          text,
          'a number, 0 or more',
          `"${text}" is no number. Give ${at} as a plain number.`,
        ),
      ];

function orders(program: Command, run: Run): void {
  program
    .command('order <job> <item>')
    .description('enter something ordered')
    .option('--part <part>', 'an id it will be entered under')
    .option('--supplier <name>')
    .option('--number <number>', 'as marked')
    .option('--price <sum>')
    .option('--lead-days <days>')
    .option('--note <text>')
    .addHelpText('after', '\nExample:\n  fettle order linnet "relief spring" --price 26 --lead-days 7')
    .action(
      (
        job: string,
        item: string,
        said: {
          part?: string;
          supplier?: string;
          number?: string;
          price?: string;
          leadDays?: string;
          note?: string;
        },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            () => {
              const issues = [...sum('--price', said.price), ...sum('--lead-days', said.leadDays)];
              if (issues.length > 0) return failed(...issues);
              return ok({
                kind: 'order',
                body: present({
                  item,
                  part: said.part,
                  supplier: said.supplier,
                  number: said.number,
                  price: said.price === undefined ? undefined : Number(said.price),
                  lead_days: said.leadDays === undefined ? undefined : Number(said.leadDays),
                  note: said.note,
                }) as Body<'order'>,
              });
            },
            `${item} ordered.`,
          ),
        ),
    );
  program
    .command('receive <job> <order>')
    .description('something ordered has arrived; ORDER is the entry id or the item')
    .option('--part <part>', 'the part it was entered as')
    .option('--note <text>')
    .addHelpText('after', '\nExample:\n  fettle receive linnet "relief spring"')
    .action((job: string, named: string, said: { part?: string; note?: string }) =>
      run(async (context) =>
        entered(
          await context.bench(job),
          (bench) => {
            const { orders } = bench.book();
            const found = orders.find(({ entry, body }) => entry.id === named || body.item === named);
            if (!found)
              return failed(
                issue(
                  'order/unknown',
                  'order',
                  named,
                  orders.map(({ body }) => body.item).join(', ') || 'nothing ordered yet',
                  `Nothing called "${named}" is on order.`,
                ),
              );
            return ok({
              kind: 'receipt',
              body: present({ order: found.entry.id, part: said.part, note: said.note }) as Body<'receipt'>,
            });
          },
          `${named} received.`,
        ),
      ),
    );
}

function note(program: Command, run: Run): void {
  program
    .command('note <job> <text>')
    .description('write a note into the book')
    .option('--about <what>', 'a part, a characteristic, a cover')
    .addHelpText('after', '\nExample:\n  fettle note linnet "The sump was full of sludge" --about pan')
    .action((job: string, text: string, said: { about?: string }) =>
      run(async (context) =>
        entered(
          await context.bench(job),
          () => ok({ kind: 'note', body: { text, ...(said.about !== undefined && { about: said.about }) } }),
          'Noted.',
        ),
      ),
    );
}
