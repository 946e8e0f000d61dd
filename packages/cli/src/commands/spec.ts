import { writeFileSync } from 'node:fs';
import { extname } from 'node:path';
import {
  admittedAmendment,
  amendedLimits,
  type Body,
  type Book,
  contentHash,
  csvFromSheet,
  leftOutOfCsv,
  type SpecSheet,
  sheetWithList,
  TRUSTS,
  unknownCharacteristic,
} from '@fettle/book';
import { type Caution, failed, type Issue, type Outcome, ok } from '@fettle/core';
import { written } from '@fettle/store';
import type { Bench } from '../bench.ts';
import type { Context } from '../context.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { counted, sheetFile } from '../sheet-file.ts';

interface Said {
  readonly from?: string;
  readonly to?: string;
}

export const registerSpec: Register = (program, run) => {
  program
    .command('spec <job>')
    .description('the spec sheet: print it, write it to a file, or adopt another one')
    .option('--to <file>', 'write it: .json whole, .csv the plain list of characteristics for a spreadsheet')
    .option(
      '--from <file>',
      'adopt it from now on: a .json takes the place of the sheet, a .csv is written into it',
    )
    .addHelpText(
      'after',
      `
Examples:
  fettle spec linnet --to linnet.csv
  fettle spec "blue one" --from blue-one.csv`,
    )
    .action((job: string, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        if (said.from !== undefined) return adopted(context, bench.value, said.from);
        return shown(bench.value.book(), said.to);
      }),
    );
  program
    .command('amend <job> <characteristic>')
    .description('change a limit of the spec sheet in this job, with where it comes from and why')
    .option('--new-lower <quantity>')
    .option('--new-upper <quantity>')
    .option('--new-target <quantity>')
    .option('--wear-lower <quantity>')
    .option('--wear-upper <quantity>')
    .option('--document <name>', 'a document of the spec sheet, or the name of another', 'own note')
    .option('--page <page>')
    .requiredOption('--trust <trust>', TRUSTS.join(', '))
    .requiredOption('--why <text>')
    .addHelpText(
      'after',
      '\nExample:\n  fettle amend linnet crank.end-float --wear-upper "0.010 in" --trust remembered --why "later edition"',
    )
    .action((job: string, id: string, said: Amended) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? amended(bench.value, id, said) : bench;
      }),
    );
};

function noSheet(): Outcome<never> {
  return failed({
    code: 'sheet/missing',
    at: 'sheet',
    got: 'no spec sheet here',
    wanted: 'a spec sheet',
    message: 'The job’s spec sheet is not here. Adopt one with "fettle spec JOB --from FILE".',
  });
}

/** The sheet with the amendments of this job made in it, so that what is written out is what is judged by. */
function sheetAsAmended(book: Book): SpecSheet | undefined {
  if (!book.sheet) return undefined;
  const characteristics = [...book.characteristics.values()];
  const named = characteristics
    .flatMap(({ source, limits }) => [
      source,
      ...[limits?.new, limits?.wear].flatMap((set) => [set?.source, ...Object.values(set?.sources ?? {})]),
    ])
    .flatMap((source) => (source ? [[source.document, { title: source.document }] as const] : []));
  return {
    ...book.sheet,
    documents: { ...Object.fromEntries(named), ...book.sheet.documents },
    characteristics,
  };
}

function shown(book: Book, to: string | undefined): Outcome<Reply> {
  const sheet = sheetAsAmended(book);
  if (!sheet) return noSheet();
  const ending = to === undefined ? '.csv' : extname(to).toLowerCase();
  if (ending !== '.csv' && ending !== '.json')
    return failed({
      code: 'file/unknown-ending',
      at: '--to',
      got: to!,
      wanted: 'a name that ends in .csv or .json',
      message: `${to} says no format. End it in .csv for a spreadsheet, or in .json for the whole sheet.`,
    });
  const csv = ending === '.csv';
  const text = csv ? csvFromSheet(sheet) : `${JSON.stringify(sheet, null, 2)}\n`;
  if (to === undefined) return ok({ json: sheet, text });
  try {
    writeFileSync(to, text);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return failed({
      code: 'file/cannot-write',
      at: to,
      got: code ?? String(error),
      wanted: 'a file that can be written',
      message: `${to} cannot be written (${code ?? String(error)}). Check the name and its rights.`,
    });
  }
  const left = csv ? leftOutOfCsv(sheet) : [];
  return ok({
    json: { file: to, left_out: left },
    text: `${counted(sheet)} written to ${to}.${left.length > 0 ? ` A plain list has no columns for: ${left.join(', ')}. They stay when the list is taken back with --from.` : ''}`,
  });
}

async function adopted(context: Context, bench: Bench, file: string): Promise<Outcome<Reply>> {
  const directory = await context.directory();
  if (!directory.ok) return directory;
  const before = bench.book();
  const given = sheetFile(file, before.sheet?.title);
  if (!given.ok) return given;
  // A plain list is written into the sheet that is here; a whole sheet takes its place.
  const source =
    before.sheet && given.value.list ? sheetWithList(sheetAsAmended(before)!, given.value) : ok(given.value);
  if (!source.ok) return source;
  const { sheet } = source.value;
  const cautions = [...source.value.cautions, ...outliving(before, sheet)];
  const hash = contentHash(sheet);
  const entries = await written(
    directory.value,
    { job: bench.job, who: context.who(), now: context.io.now(), random: context.io.random },
    [{ kind: 'spec-adopted', body: { sheet: hash, title: sheet.title } }],
    { sheets: [{ hash, json: sheet }] },
  );
  if (!entries.ok) return entries;
  return ok({
    json: { sheet: hash, cautions },
    text: [
      `${sheet.title} adopted, ${counted(sheet)}.`,
      ...cautions.map(({ message }) => `Caution: ${message}`),
    ].join('\n'),
  });
}

/** Amendments go on counting over a sheet that is adopted later; where it says something else, that must be said. */
function outliving(book: Book, sheet: SpecSheet): Caution[] {
  const adopted = new Map(sheet.characteristics.map(({ id, limits }) => [id, limits]));
  const differing = [...book.amended.values()]
    .map(({ body }) => body.characteristic)
    .filter(
      (id) => contentHash(book.characteristics.get(id)?.limits ?? {}) !== contentHash(adopted.get(id) ?? {}),
    );
  return differing.length === 0
    ? []
    : [
        {
          code: 'amend/outlives',
          message: `Limits amended in this job go on counting over the adopted sheet: ${differing.join(', ')}. Amend them anew, or strike the amendment, where the sheet is right.`,
        },
      ];
}

interface Amended {
  readonly newLower?: string;
  readonly newUpper?: string;
  readonly newTarget?: string;
  readonly wearLower?: string;
  readonly wearUpper?: string;
  readonly document: string;
  readonly page?: string;
  readonly trust: string;
  readonly why: string;
}

async function amended(bench: Bench, id: string, said: Amended): Promise<Outcome<Reply>> {
  const characteristic = bench.book().characteristics.get(id);
  if (!characteristic) return failed(unknownCharacteristic(bench.book(), id));
  const trust = TRUSTS.find((known) => known === said.trust);
  const issues: Issue[] = [];
  if (!trust)
    issues.push({
      code: 'amend/trust',
      at: '--trust',
      got: said.trust,
      wanted: TRUSTS.join(', '),
      message: `Say how far the limit is trusted: ${TRUSTS.join(', ')}.`,
    });
  const given = [said.newLower, said.newUpper, said.newTarget, said.wearLower, said.wearUpper].some(
    (one) => one !== undefined,
  );
  if (!given)
    issues.push({
      code: 'amend/nothing',
      at: 'limits',
      got: 'no limit',
      wanted: '--new-lower, --new-upper, --wear-lower …',
      message: 'Say which limit changes, with its unit.',
    });
  if (issues.length > 0) return failed(...issues);
  const source = {
    document: said.document,
    trust: trust!,
    ...(said.page !== undefined && { page: said.page }),
  };
  const set = (name: 'new' | 'wear', fields: Record<string, string | undefined>) => {
    const changed = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
    const before = characteristic.limits?.[name];
    return Object.keys(changed).length > 0
      ? { [name]: amendedLimits(characteristic, name, changed, source) }
      : before
        ? { [name]: before }
        : {};
  };
  const body: Body<'characteristic-amended'> = {
    characteristic: id,
    change: {
      limits: {
        ...set('new', { lower: said.newLower, upper: said.newUpper, target: said.newTarget }),
        ...set('wear', { lower: said.wearLower, upper: said.wearUpper }),
      },
    },
    why: said.why,
  };
  const admitted = admittedAmendment(bench.book(), body);
  if (!admitted.ok) return admitted;
  const entries = await bench.write([{ kind: 'characteristic-amended', body: admitted.value }]);
  return entries.ok
    ? ok({ json: entries.value[0], text: `${characteristic.name} amended: ${said.why}` })
    : entries;
}
