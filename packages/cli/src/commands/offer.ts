import { admittedOffer, type Body, type Book, moneyWords, placeFrom, sumSaid } from '@fettle/book';
import { failed, type Issue, issue, type Outcome, ok } from '@fettle/core';
import { coveredFrom } from '../covered.ts';
import { entered, present } from '../entered.ts';
import type { Register } from '../registration.ts';

interface Said {
  readonly price: string;
  readonly lead?: string;
  readonly soonest?: string;
  readonly latest?: string;
  readonly way?: string;
  readonly covers?: string[];
  readonly restores?: string[];
  readonly repairs?: string[];
  readonly oil?: string;
  readonly needs?: string[];
  readonly excludes?: string[];
  readonly trust?: string;
  readonly supplier?: string;
  readonly number?: string;
  readonly note?: string;
}

type Restored = Body<'repair-offered'>['restores'][number];

export const registerOffer: Register = (program, run) => {
  program
    .command('offer <job> <id> <name>')
    .description('enter a repair on offer: what it costs, how long it takes, what it brings back')
    .requiredOption('--price <sum>', 'in the money of the job; 0 where it is in another’s price')
    .option('--lead <time>', 'such as "2 weeks", from when it can begin')
    .option('--soonest <time>', 'the lead time if all goes well')
    .option('--latest <time>', 'the lead time that is not exceeded unless something breaks')
    .option('--way <way>', 'machine or replace: what it does to the parts it restores')
    .option('--covers <needs...>', 'what else its price covers: NEED[:COUNT][ size NAME]')
    .option(
      '--restores <what...>',
      'CHARACTERISTIC[@PLACE][=VALUE][ within DOUBT][ by wear][ size NAME]; without a value: as new',
    )
    .option('--repairs <what...>', 'a repair of the oil circuit by its name: NAME[=VALUE][ within DOUBT]')
    .option('--oil <grade>', 'a grade of the sheet, filled instead')
    .option('--needs <ids...>', 'offers it is no use without; it begins after them')
    .option('--excludes <ids...>', 'offers that cannot be taken beside it')
    .option('--trust <trust>', 'quoted or assumed', 'assumed')
    .option('--supplier <name>')
    .option('--number <number>', 'as listed')
    .option('--note <text>')
    .addHelpText(
      'after',
      `
The same id entered again takes the place of what was said before; "fettle strike" takes an offer back.

Examples:
  fettle offer linnet spring "Relief spring" --price 26 --restores relief.rate relief.load-at-1.560 --trust quoted
  fettle offer linnet gears "Gears and cover" --price 118 --restores "pump.radial-clearance=0.0041in within 0.0004in by wear"
  fettle offer linnet grind "Crank grind" --price 510 --lead "2 weeks" --restores crank.main-journal --excludes shells`,
    )
    .action((job: string, id: string, name: string, said: Said) =>
      run(async (context) =>
        entered(
          await context.bench(job),
          (bench) => {
            const body = offerSaid(bench.book(), id, name, said);
            return body.ok ? ok({ kind: 'repair-offered', body: body.value }) : body;
          },
          (book) =>
            `${name}: on offer for ${moneyWords.money(book.offers.get(id)?.body.price ?? 0, moneyWords.currencyOf(book))}.`,
        ),
      ),
    );
};

function offerSaid(book: Book, id: string, name: string, said: Said): Outcome<Body<'repair-offered'>> {
  const issues: Issue[] = [];
  const price = sumSaid('--price', said.price, moneyWords.currencyOf(book));
  if (!price.ok) issues.push(...price.issues);
  const trust = (['quoted', 'assumed'] as const).find((one) => one === said.trust);
  if (!trust)
    issues.push(
      issue(
        'offer/unknown-trust',
        '--trust',
        said.trust ?? '',
        'quoted, assumed',
        `A price is quoted or assumed, not "${said.trust}". Say --trust quoted or --trust assumed.`,
      ),
    );
  const way = (['machine', 'replace'] as const).find((one) => one === said.way);
  if (said.way !== undefined && !way)
    issues.push(
      issue(
        'offer/unknown-way',
        '--way',
        said.way,
        'machine, replace',
        `An offer machines or replaces, it does not "${said.way}". Say --way machine or --way replace.`,
      ),
    );
  const covers = (said.covers ?? []).map(coveredFrom);
  issues.push(...covers.flatMap((one) => (one.ok ? [] : one.issues)));
  const restores = (said.restores ?? []).map((text) => restoredFrom(book, text));
  const repairs = (said.repairs ?? []).map(repairFrom);
  issues.push(...[...restores, ...repairs].flatMap((one) => (one.ok ? [] : one.issues)));
  if (issues.length > 0) return failed(...issues);
  return admittedOffer(
    book,
    present({
      offer: id,
      name,
      price: price.ok ? price.value : 0,
      lead_time: said.lead,
      soonest: said.soonest,
      latest: said.latest,
      way,
      covers: said.covers && covers.flatMap((one) => (one.ok ? [one.value] : [])),
      restores: restores.flatMap((one) => (one.ok ? [one.value] : [])),
      repairs: repairs.flatMap((one) => (one.ok ? [one.value] : [])),
      oil: said.oil,
      needs: said.needs ?? [],
      excludes: said.excludes ?? [],
      trust: trust!,
      supplier: said.supplier,
      number: said.number,
      note: said.note,
    }) as Body<'repair-offered'>,
  );
}

const RESTORED =
  /^(?<id>[^=@\s]+)(?:@(?<at>[^=\s]+))?(?:=(?<value>.+?))?(?:\s+within\s+(?<doubt>.+?))?(?:\s+by\s+(?<by>new|wear))?(?:\s+size\s+(?<size>.+))?$/;
const REPAIR = /^(?<name>[^=]+?)(?:=(?<value>.+?))?(?:\s+within\s+(?<doubt>.+))?$/;

const unreadable = (at: string, got: string, wanted: string): Issue =>
  issue(
    'offer/unreadable',
    at,
    got,
    wanted,
    `"${got}" does not read. Write ${wanted}, in quotes where there are spaces.`,
  );

function restoredFrom(book: Book, text: string): Outcome<Restored> {
  const said = RESTORED.exec(text.trim())?.groups;
  if (!said)
    return failed(
      unreadable('--restores', text, 'CHARACTERISTIC[@PLACE][=VALUE][ within DOUBT][ by wear][ size NAME]'),
    );
  const characteristic = book.characteristics.get(said.id!);
  const place =
    said.at !== undefined && book.sheet && characteristic
      ? placeFrom(book.sheet, characteristic, said.at)
      : undefined;
  if (place && !place.ok) return place;
  return ok({
    characteristic: said.id!,
    judged_by: said.by === 'wear' ? 'wear' : 'new',
    ...present({ at: place?.value, value: said.value, doubt: said.doubt, size: said.size }),
  } as Restored);
}

function repairFrom(text: string): Outcome<Body<'repair-offered'>['repairs'][number]> {
  const said = REPAIR.exec(text.trim())?.groups;
  if (!said) return failed(unreadable('--repairs', text, 'NAME[=VALUE][ within DOUBT]'));
  return ok({
    repair: said.name!,
    ...(present({ value: said.value, doubt: said.doubt }) as { value?: string; doubt?: string }),
  });
}
