import {
  type Assessed,
  type Assessment,
  asFittedNow,
  asFound,
  assessment,
  type Book,
  furtherMoves,
  type Gate,
  noticesOf,
  placeText,
  type TorqueAssessment,
  torqueDoubtWords,
  unawaitedWords,
} from '@fettle/book';
import { CATALOGUE, failed, type Outcome, ok } from '@fettle/core';
import { closingLineText } from '@fettle/draw';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { decidingLimits, lineOf, nameOf, valueWords } from '../words/judgement.ts';
import { judgementWithFurther } from '../words/judgement-json.ts';
import { judgementLines } from '../words/judgement-lines.ts';
import { pressureSummary } from '../words/pressure.ts';
import { heading, table, wrapped } from '../words/table.ts';

interface Said {
  readonly asFound?: boolean;
  readonly all?: boolean;
}

export const registerCheck: Register = (program, run) => {
  program
    .command('check <job>')
    .description('verdicts, torques, gates and predicted pressure; status 0 only when all is proven')
    .option('--as-found', 'the engine as it came: each position’s first part in its first state')
    .option('--all', 'also everything that is in, one by one')
    .addHelpText('after', '\nExamples:\n  fettle check linnet\n  fettle check linnet --as-found --json')
    .action((job: string, said: Said) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        if (!book.sheet && book.characteristics.size === 0)
          return failed({
            code: 'sheet/missing',
            at: job,
            got:
              book.sheetHash === undefined
                ? 'no spec sheet adopted'
                : `the sheet ${book.sheetHash}, which is not here`,
            wanted: 'a spec sheet',
            message:
              'The job’s spec sheet is not here, so nothing can be judged. Import it with the job, or adopt one with "fettle spec JOB --from FILE".',
          });
        const assessed = assessment(
          book,
          said.asFound ? asFound(book) : asFittedNow(book),
          CATALOGUE,
          context.io.now(),
        );
        return ok(reply(book, assessed, said));
      }),
    );
};

const needed = (judgement: Assessed): boolean =>
  judgement.status !== 'in' &&
  judgement.status !== 'no-limits' &&
  !(judgement.status === 'missing' && judgement.characteristic.optional === true);

const torqueOpen = ({ advice, unlogged }: TorqueAssessment): boolean =>
  unlogged.length > 0 || (advice.ok && advice.value.advice === 'refused');

function reply(book: Book, assessed: Assessment, said: Said): Reply {
  const proven =
    !assessed.judgements.some(needed) &&
    !assessed.torques.some(torqueOpen) &&
    assessed.gates.every(({ state }) => state === 'open');
  return { json: checkJson(book, assessed), text: checkText(book, assessed, said), status: proven ? 0 : 1 };
}

function checkJson(book: Book, { judgements, torques, gates, reckoning }: Assessment) {
  return {
    job: book.job,
    title: book.opened?.body.title,
    judgements: judgements.map((one) => judgementWithFurther(one, furtherMoves(reckoning, one))),
    torques: torques.map(({ fastener, advice, unlogged, proofs }) => ({
      fastener: fastener.id,
      advice: advice.ok ? advice.value : { issues: advice.issues },
      unlogged,
      in_doubt: proofs.flatMap(({ place, pass, doubt }) =>
        doubt ? [{ place, because: doubt.why, pass: pass?.entry.id }] : [],
      ),
    })),
    gates: gates.map(gateJson),
    conflicts: book.conflicts,
    unknown_entries: book.unknown.map(({ id, kind, v }) => ({ id, kind, v })),
    missing_sheets: book.missingSheets,
  };
}

export const gateJson = (gate: Gate) => ({
  cover: gate.cover.id,
  name: gate.cover.name,
  order: gate.cover.order,
  reopen_hours: gate.cover.reopen_hours,
  state: gate.state,
  closed: gate.closed,
  reasons: gate.reasons,
  passed: gate.passed && { who: gate.passed.entry.who, why: gate.passed.body.why, at: gate.passed.entry.at },
  since_then: gate.sinceThen,
});

function checkText(book: Book, { judgements, torques, gates, reckoning }: Assessment, said: Said): string {
  const of = (status: Assessed['status']) => judgements.filter((judgement) => judgement.status === status);
  const section = (title: string, list: readonly Assessed[]): string[] =>
    list.length === 0
      ? []
      : [
          ...heading(`${title} (${list.length})`),
          ...list.flatMap((j) => judgementLines(j, true, furtherMoves(reckoning, j))),
        ];
  const brief = (list: readonly Assessed[]): string[] =>
    table(
      list.map((j) => [
        lineOf(j),
        `${j.characteristic.name} [${nameOf(j)}]`,
        valueWords(j),
        decidingLimits(j),
      ]),
      '  ',
    );
  const unread = of('missing').filter((j) => j.characteristic.optional !== true);
  const optional = of('missing').length - unread.length;
  return [
    `${book.opened?.body.title ?? book.job}${said.asFound ? ', as found' : ''}`,
    ...(book.sheet ? [`Spec sheet: ${book.sheet.title}`] : []),
    inOneLine(judgements, gates),
    ...noticesOf(book).map((notice) => `! ${notice}`),
    ...section('✖ OUT', of('out')),
    ...section('◐ CANNOT TELL', of('cannot-tell')),
    ...(unread.length > 0 ? [...heading(`… NOT READ (${unread.length})`), ...unreadLines(unread)] : []),
    ...(optional > 0 ? ['', `  ${unawaitedWords(optional)}`] : []),
    ...heading(`○ IN (${of('in').length})`),
    ...(said.all ? brief(of('in')) : inLines(of('in'))),
    ...torqueLines(book, torques),
    ...pressureSummary(book, reckoning),
    ...gateLines(gates),
    '',
    inOneLine(judgements, gates),
  ].join('\n');
}

/** Characteristics not read, one line each, with where. */
function unreadLines(list: readonly Assessed[]): string[] {
  return byCharacteristic(list).flatMap(({ characteristic, judgements }) => {
    const places = placesIn(judgements);
    const waits = new Set(
      judgements
        .flatMap(({ missing }) => missing.map((one) => one.characteristic))
        .filter((id) => id !== characteristic.id),
    );
    const where =
      places.length > 0 ? `, at ${places.length > 8 ? `${places.length} places` : places.join(' ')}` : '';
    const follows = waits.size > 0 ? `, follows from ${[...waits].join(', ')}` : '';
    return wrapped(`${characteristic.name} [${characteristic.id}]${where}${follows}`, 106, '    ').map(
      (line) => `  ${line}`,
    );
  });
}

/** What is in, a characteristic at a time with its places. */
function inLines(list: readonly Assessed[]): string[] {
  const words = byCharacteristic(list).map(({ characteristic, judgements }) =>
    [characteristic.id, ...placesIn(judgements)].join(' '),
  );
  return wrapped(words.join(';  ') || 'nothing yet', 106).map((line) => `  ${line}`);
}

const placesIn = (judgements: readonly Assessed[]): string[] =>
  judgements.map(({ place }) => placeText(place)).filter((at) => at !== '');

function byCharacteristic(list: readonly Assessed[]) {
  const groups = new Map<string, { characteristic: Assessed['characteristic']; judgements: Assessed[] }>();
  for (const judgement of list) {
    const { characteristic } = judgement;
    const group = groups.get(characteristic.id) ?? { characteristic, judgements: [] };
    group.judgements.push(judgement);
    groups.set(characteristic.id, group);
  }
  return [...groups.values()];
}

/** The whole job in one line, first and last: what a person wants to know across the bench. */
function inOneLine(judgements: readonly Assessed[], gates: readonly Gate[]): string {
  const count = (status: Assessed['status']) =>
    judgements.filter((one) => one.status === status && (status !== 'missing' || needed(one))).length;
  const counts = `✖ ${count('out')} out   ◐ ${count('cannot-tell')} cannot tell   … ${count('missing')} not read   ○ ${count('in')} in.`;
  if (gates.length === 0) return counts;
  const open = gates.filter(({ state }) => state === 'open').map(({ cover }) => cover.name);
  if (open.length === 0) return `${counts} No cover may be closed.`;
  return `${counts} ${open.length === gates.length ? 'Every cover may be closed.' : `May be closed: ${open.join(', ')}.`}`;
}

function torqueLines(book: Book, torques: readonly TorqueAssessment[]): string[] {
  if (torques.length === 0) return [];
  const lines = torques.flatMap((torque) => {
    const { fastener, advice, unlogged, passes } = torque;
    const given = `${fastener.torque.lower}${fastener.torque.upper === undefined ? '' : ` to ${fastener.torque.upper}`}`;
    const verdict = advice.ok ? advice.value.advice : 'no-verdict';
    const word = {
      advised: '○ may be used',
      cautioned: '◐ with care',
      refused: '✖ REFUSED',
      'no-verdict': '· no verdict',
    }[verdict];
    const why = advice.ok ? advice.value.reasons : advice.issues.map(({ message }) => message);
    const logged =
      unlogged.length === 0
        ? 'logged'
        : passes.length > 0
          ? `not proven (${passes.length} logged)`
          : 'not logged';
    return [
      `  ${word.padEnd(14)} ${fastener.line === undefined ? '' : `${fastener.line} `}${fastener.name}: ${given}, ${logged}`,
      ...[...why, ...torqueDoubtWords(book, torque).values()].flatMap((reason) =>
        wrapped(reason, 94).map((line) => `                 ${line}`),
      ),
    ];
  });
  return [...heading('Torques on the sheet'), ...lines];
}

function gateLines(gates: readonly Gate[]): string[] {
  if (gates.length === 0) return [];
  const marks = gates.map((gate) => ({
    name: gate.cover.name,
    reopenHours: gate.cover.reopen_hours,
    state: gate.closed ? ('closed' as const) : gate.passed ? ('passed' as const) : gate.state,
    reasons: gate.reasons.length,
  }));
  return [
    ...heading('Covers, in the order they go on'),
    ...closingLineText(marks).map((line) => `  ${line}`),
    ...gates.flatMap((gate) => [
      ...(gate.passed
        ? [`  ${gate.cover.name}: hold passed by ${gate.passed.entry.who}: ${gate.passed.body.why}`]
        : []),
      ...(gate.sinceThen.length > 0
        ? [
            `  ${gate.cover.name}: would not pass now: ${gate.sinceThen.map(({ message }) => message).join('; ')}`,
          ]
        : []),
    ]),
    '',
    '  Why a cover is held: fettle gate JOB COVER. The working behind a figure: fettle why JOB NAME.',
  ];
}
