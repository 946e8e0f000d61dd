import {
  type Body,
  type Book,
  budgetOf,
  checkState,
  chestWords,
  INSTRUMENT_TYPES,
  stacksNear,
  studyWorked,
} from '@fettle/book';
import { type Outcome, ok } from '@fettle/core';
import { barsText } from '@fettle/draw';
import type { Reply } from '../reply.ts';
import { heading, table, wrapped } from './table.ts';

type Instrument = Body<'instrument-declared'>;

const WIDTH = 104;
const lines = (text: string): string[] => wrapped(text, WIDTH, '  ').map((line) => `  ${line}`);

/** All instruments, or one, with how each stands by its checks. */
export function ownedReply(book: Book, only?: string): Reply {
  const instruments = [...book.instruments.values()]
    .map(({ body }) => body)
    .filter(({ instrument }) => only === undefined || instrument === only);
  if (instruments.length === 0)
    return {
      json: [],
      text: 'No instrument declared. Add one with "fettle tools JOB add ID NAME --type TYPE"; "fettle tools JOB types" lists the types.',
    };
  const rows = instruments.map((body) => [
    body.instrument,
    body.name,
    body.type,
    `±${body.uncertainty.expanded}`,
    body.trust === 'default' ? 'default, not stated by its owner' : body.trust === 'built' ? 'built' : '',
    [
      body.leaves ? `${body.leaves.length} leaves` : '',
      body.set_in === undefined ? '' : `set in ${body.set_in}`,
    ]
      .filter((words) => words !== '')
      .join(', '),
  ]);
  const states = instruments.map((body) => [body, checkState(book, body.instrument)] as const);
  const checked = states.filter(([, { last, since }]) => last !== undefined || since > 0);
  return {
    json: instruments,
    text: [
      ...table([['id', 'name', 'type', 'U (k = 2)', '', ''], ...rows]),
      ...(checked.length > 0 ? heading('Checks') : []),
      ...checked.flatMap(([body, state]) =>
        lines(`${body.name}: ${chestWords.checkStateWords(book, state)}`),
      ),
    ].join('\n'),
  };
}

/** One instrument with its budget, line by line. */
export function budgetReply(book: Book, id: string): Reply {
  const body = book.instruments.get(id)!.body;
  const worked = budgetOf(body);
  const rows = worked ? chestWords.budgetRows(book, worked) : [];
  const state = checkState(book, id);
  const { expanded, coverage, common_share } = body.uncertainty;
  const other = body.set_in === undefined ? undefined : book.instruments.get(body.set_in)?.body.name;
  return {
    json: { ...body, worked: worked && { u: worked.u, common_share: worked.commonShare, rows } },
    text: [
      `${body.name}: ±${expanded} at about 95 % (k = ${coverage})${body.name === body.type ? '' : `, ${body.type}`}`,
      ...lines(
        `U ${chestWords.trustWords[body.trust]}; ${Math.round(100 * common_share)} % of its variance is common to all its readings.`,
      ),
      ...(other === undefined
        ? []
        : lines(`Set in or read by ${other}, whose error cancels between the two.`)),
      ...(body.leaves ? lines(`Leaves: ${body.leaves.join(', ')}`) : []),
      ...(worked
        ? budgetLines(body, worked, rows)
        : lines('It was stated as a whole: no budget stands behind it.')),
      ...heading('Checks'),
      ...(state.checks.length > 1
        ? state.checks.slice(0, -1).flatMap((check) => lines(chestWords.checkWords(book, check)))
        : []),
      ...lines(chestWords.checkStateWords(book, state)),
      ...studyLines(book, body),
      ...(body.note === undefined ? [] : ['', ...lines(body.note)]),
    ].join('\n'),
  };

  function budgetLines(
    declared: Instrument,
    budget: NonNullable<typeof worked>,
    all: readonly chestWords.BudgetRow[],
  ): string[] {
    return [
      ...heading('What U is built from'),
      ...table(
        [
          ['', 'amount', 'how', 'u', 'in', 'source'],
          ...all.map(({ what, amount, how, u, whose, source }) => [what, amount, how, u, whose, source]),
        ],
        '  ',
      ),
      '',
      ...barsText(
        all.map(({ what, share }) => ({
          label: `  ${what}`,
          value: share,
          text: `${Math.round(100 * share)} %`,
        })),
      ),
      '',
      ...lines(chestWords.budgetSum(declared, budget)),
    ];
  }
}

/** Studies kept of it, each with what it says; the one adopted is in the budget by now. */
function studyLines(book: Book, { instrument, name, study: adopted }: Instrument): string[] {
  const own = book.studies.filter(({ body }) => body.instrument === instrument);
  if (own.length === 0) return [];
  return [
    ...heading('Your own repeatability'),
    ...own.flatMap(({ entry, body }) => {
      const worked = studyWorked(book.instruments, instrument, body.readings);
      const said = worked.ok ? chestWords.studySentences(name, worked.value) : [];
      const taken = entry.id === adopted;
      return lines(`${body.what}${taken ? ', adopted' : ''}: ${(taken ? said.slice(0, 2) : said).join(' ')}`);
    }),
  ];
}

export function checkedReply(book: Book, entry: string): Reply {
  const check = book.instrumentChecks.find((one) => one.entry.id === entry);
  if (!check) return { json: null, text: '' };
  const name = book.instruments.get(check.body.instrument)?.body.name ?? check.body.instrument;
  const doubted = new Set([...book.reopened].flatMap(([taken, by]) => (by === entry ? [taken] : [])));
  const reopened = doubted.size;
  // A torque or the reading of a pressure gauge is taken again; a correction is of readings alone.
  const correct = book.readings.some(({ entry: { id } }) => doubted.has(id))
    ? `, or "fettle tools JOB correct ${check.body.instrument} --add … --doubt … --why …" if all readings are off by just that`
    : '';
  const again =
    reopened === 0
      ? check.body.good
        ? ''
        : ' Nothing had been taken with it since its last good check.'
      : ` ${reopened} ${reopened === 1 ? 'entry' : 'entries'} since its last good check in doubt: take them again${correct}.`;
  return { json: check.body, text: `${name}, ${chestWords.checkWords(book, check)}.${again}` };
}

export function studyReply(book: Book, entry: string): Outcome<Reply> {
  const written = book.studies.find((one) => one.entry.id === entry)!;
  const { instrument, readings } = written.body;
  const worked = studyWorked(book.instruments, instrument, readings);
  if (!worked.ok) return worked;
  const name = book.instruments.get(instrument)?.body.name ?? instrument;
  const rows = chestWords.studyRows(worked.value);
  return ok({
    json: written.body,
    text: [
      ...chestWords.studySentences(name, worked.value).flatMap((text) => wrapped(text, WIDTH, '  ')),
      ...(rows.length > 1
        ? [
            ...heading('Where the spread comes from'),
            ...table(
              [
                ['', 'sum of squares', 'degrees', 'mean square', 'ratio', 'standard deviation'],
                ...rows.map(({ source, squares, dof, meanSquare, ratio, sd }) => [
                  source,
                  squares,
                  dof,
                  meanSquare,
                  ratio,
                  sd,
                ]),
              ],
              '  ',
            ),
          ]
        : []),
      '',
      `It is kept and changes nothing. "fettle tools JOB adopt ${instrument}" puts it in the place of what was assumed.`,
    ].join('\n'),
  });
}

/** The stacks of leaves nearest to a gap. */
export function stackReply(book: Book, id: string, rest: readonly string[]): Outcome<Reply> {
  const stacks = stacksNear(book.instruments.get(id)!.body, rest.join(' '));
  if (!stacks.ok) return stacks;
  return ok({
    json: stacks.value,
    text: [
      ...table(
        stacks.value.map(({ leaves, thickness, doubt, count }) => [
          leaves,
          thickness,
          doubt,
          count > 1 ? `${count} leaves` : 'one leaf',
        ]),
      ),
      '',
      chestWords.STACK_CAUTION,
    ].join('\n'),
  });
}

/** Every type a budget can be built for, with what may be said of it. */
export function typesReply(): Reply {
  const types = [...INSTRUMENT_TYPES.values()];
  return {
    json: types.map(({ type, reads, settings, chained, check }) => ({
      type,
      reads,
      settings,
      chained,
      check,
    })),
    text: types
      .flatMap(({ type, settings, chained, check }) => [
        type,
        ...table(
          settings.map(({ key, label, choices, usual }) => [
            key,
            choices ? `${label}: ${choices.join(', ')}` : label,
            usual[0] === ''
              ? ''
              : usual[0] === usual[1]
                ? `usually ${usual[0]}`
                : `usually ${usual[0]}, ${usual[1]}`,
          ]),
          '  ',
        ),
        ...(chained === undefined ? [] : [`  --set-in: ${chained}`]),
        `  checked against ${check}`,
      ])
      .join('\n'),
  };
}
