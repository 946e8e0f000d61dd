import {
  contentHash,
  currencySaid,
  LAYOUTS,
  type Layout,
  newEntryId,
  outlineSheet,
  type SpecSheet,
  sumSaid,
} from '@fettle/book';
import { type Caution, failed, type Outcome, ok } from '@fettle/core';
import { written } from '@fettle/store';
import type { Context } from '../context.ts';
import { DEMOS, demoEntered } from '../demo.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { counted, sheetFile } from '../sheet-file.ts';

interface Said {
  readonly from?: string;
  readonly outline?: string;
  readonly cylinders?: string;
  readonly mains?: string;
  readonly demo?: string;
  readonly title?: string;
  readonly owner?: string;
  readonly story?: string;
  readonly cap?: string;
  readonly currency?: string;
  readonly due?: string;
}

export const registerNew: Register = (program, run) => {
  program
    .command('new')
    .description('open a job: from a spec sheet or a spreadsheet, from an outline, or the demo')
    .option('--from <file>', 'a spec sheet (.json) or a list of characteristics (.csv)')
    .option('--outline <layout>', `an engine of one’s own without numbers yet: ${LAYOUTS.join(', ')}`)
    .option('--cylinders <count>', 'with --outline')
    .option('--mains <count>', 'main bearings, with --outline')
    .option(
      '--demo <name>',
      `a worked job: ${Object.keys(DEMOS).join(', ')}; already there, it is left as it is`,
    )
    .option('--title <title>', 'what the job is called')
    .option('--owner <name>')
    .option('--story <text>', 'what is known of the engine before it is opened')
    .option('--currency <code>', 'of every sum in the job, by ISO 4217, such as EUR')
    .option('--cap <sum>', 'spending cap')
    .option('--due <date>')
    .addHelpText(
      'after',
      `
Examples:
  fettle new --demo linnet
  fettle new --from my-engine.csv --title "The blue one"
  fettle new --outline inline --cylinders 4 --mains 3 --title "The blue one"
  A spreadsheet needs a heading line; name, unit, new lower, new upper, wear upper will do for a start.`,
    )
    .action((said: Said) => run((context) => opened(context, said)));
};

async function opened(context: Context, said: Said): Promise<Outcome<Reply>> {
  const ways = [said.from, said.outline, said.demo].filter((way) => way !== undefined);
  if (ways.length !== 1)
    return failed({
      code: 'command/bad-use',
      at: 'new',
      got: ways.length === 0 ? 'nothing to start from' : `${ways.length} things to start from`,
      wanted: 'one of --from, --outline, --demo',
      message: `Say${ways.length > 1 ? ' one thing' : ' what'} the job starts from: --from FILE, --outline LAYOUT, or --demo linnet.`,
    });
  if (said.demo !== undefined) return demoEntered(context, said.demo);
  const source = said.from !== undefined ? sheetFile(said.from, said.title) : outlined(said);
  if (!source.ok) return source;
  return withSheet(context, said, source.value);
}

function outlined(said: Said): Outcome<{ sheet: SpecSheet; cautions: readonly Caution[] }> {
  const missing = (['cylinders', 'mains'] as const).filter((key) => !/^\d+$/.test(said[key] ?? ''));
  if (missing.length > 0 && (LAYOUTS as readonly string[]).includes(said.outline!))
    return failed(
      ...missing.map((key) => ({
        code: `outline/${key}`,
        at: `--${key}`,
        got: said[key] ?? 'nothing',
        wanted: 'a whole number',
        message: `Say how many ${key === 'mains' ? 'main bearings' : 'cylinders'} the engine has, such as --${key} ${key === 'mains' ? 3 : 4}.`,
      })),
    );
  const sheet = outlineSheet({
    layout: said.outline as Layout,
    cylinders: Number(said.cylinders),
    mains: Number(said.mains),
    title: said.title ?? `${said.outline} ${said.cylinders}`,
  });
  return sheet.ok ? ok({ sheet: sheet.value, cautions: [] }) : sheet;
}

async function withSheet(
  context: Context,
  said: Said,
  { sheet, cautions }: { sheet: SpecSheet; cautions: readonly Caution[] },
): Promise<Outcome<Reply>> {
  const currency = said.currency === undefined ? ok(undefined) : currencySaid('--currency', said.currency);
  if (!currency.ok) return currency;
  const cap = said.cap === undefined ? ok(undefined) : sumSaid('--cap', said.cap, currency.value);
  if (!cap.ok) return cap;
  const directory = await context.directory();
  if (!directory.ok) return directory;
  const hash = contentHash(sheet);
  const title = said.title ?? sheet.title;
  const job = newEntryId(context.io.now(), context.io.random(10));
  const entries = await written(
    directory.value,
    { job, who: context.who(), now: context.io.now(), random: context.io.random },
    [
      {
        kind: 'job-opened',
        body: {
          title,
          ...(said.owner !== undefined && { owner: said.owner }),
          ...(said.story !== undefined && { story: said.story }),
          ...(cap.value !== undefined && { spending_cap: cap.value }),
          ...(currency.value !== undefined && { currency: currency.value }),
          ...(said.due !== undefined && { due: said.due }),
        },
      },
      { kind: 'spec-adopted', body: { sheet: hash, title: sheet.title } },
    ],
    { sheets: [{ hash, json: sheet }] },
  );
  if (!entries.ok) return entries;
  return ok({
    json: { job, title, sheet: hash, cautions },
    text: [
      `${title}: job ${job}, ${counted(sheet)}.`,
      ...cautions.map(({ message }) => `Caution: ${message}`),
      `Next: fill in limits (fettle spec), declare what you measure with (fettle tools), read (fettle read), see what is wanted (fettle check).`,
    ].join('\n'),
  });
}
