import {
  admittedSupply,
  asFittedNow,
  assessment,
  type Basket,
  type Body,
  type Book,
  basketOf,
  daysOf,
  moneyWords,
  plannedRepairs,
  sumSaid,
} from '@fettle/book';
import { CATALOGUE, failed, type Issue, issue, type Outcome, ok } from '@fettle/core';
import { coveredFrom } from '../covered.ts';
import { entered, present } from '../entered.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { basketLines } from '../words/basket-lines.ts';

interface SupplySaid {
  readonly covers: string[];
  readonly price: string;
  readonly supplier?: string;
  readonly number?: string;
  readonly lead?: string;
  readonly soonest?: string;
  readonly latest?: string;
  readonly most?: string;
  readonly for?: string;
  readonly trust: string;
  readonly note?: string;
}

const badNumber = (at: string, got: string, wanted: string): Issue =>
  issue('number/unreadable', at, got, wanted, `"${got}" is no number here. Give ${at} as ${wanted}.`);

/** Sums as they were said, with every issue; what was not said stays undefined. */
function sums<K extends string>(
  book: Book,
  said: Readonly<Record<K, string | undefined>>,
): { issues: Issue[]; read: Partial<Record<K, number>> } {
  const currency = moneyWords.currencyOf(book);
  const issues: Issue[] = [];
  const read: Partial<Record<K, number>> = {};
  for (const [at, text] of Object.entries(said) as [K, string | undefined][]) {
    if (text === undefined) continue;
    const sum = sumSaid(at, text, currency);
    if (sum.ok) read[at] = sum.value;
    else issues.push(...sum.issues);
  }
  return { issues, read };
}

const whole = (text: string | undefined): boolean => text === undefined || /^[1-9]\d{0,5}$/.test(text.trim());

export const registerBasket: Register = (program, run) => {
  program
    .command('supply <job> <id> <name>')
    .description('enter something that can be bought: a part, a set, a kit')
    .requiredOption(
      '--covers <needs...>',
      'NEED[:COUNT][ size NAME]: a position without its place, a repair on offer, or what was wanted',
    )
    .requiredOption('--price <sum>', 'of one, in the money of the job')
    .option('--supplier <name>')
    .option('--number <number>', 'as marked')
    .option('--lead <time>', 'most likely, such as "2 weeks"')
    .option('--soonest <time>', 'if all goes well')
    .option('--latest <time>', 'not exceeded unless something breaks')
    .option('--most <count>', 'how many can be had')
    .option('--for <what>', 'what it is a substitute for')
    .option('--trust <trust>', 'quoted or assumed', 'assumed')
    .option('--note <text>')
    .addHelpText(
      'after',
      `
The same id entered again takes the place of what was said before; "fettle strike" takes it back.

Examples:
  fettle supply linnet seal-set "Pan gasket and end seals" --covers pan-gasket end-seal:2 --price 21 --supplier "Harbour Parts"
  fettle supply linnet pistons "Piston set with rings" --covers "piston:4 size .030 over" --price 260 --lead "10 days" --latest "3 weeks"`,
    )
    .action((job: string, id: string, name: string, said: SupplySaid) =>
      run(async (context) =>
        entered(
          await context.bench(job),
          (bench) => {
            const body = supplySaid(bench.book(), id, name, said);
            return body.ok ? ok({ kind: 'supply-offered', body: body.value }) : body;
          },
          (book) =>
            `${name}: can be bought for ${moneyWords.money(book.supplies.get(id)?.body.price ?? 0, moneyWords.currencyOf(book))}.`,
        ),
      ),
    );
  program
    .command('want <job> <id> <name>')
    .description('something that has to be had and is no part decided on: gaskets, seals, oil')
    .option('--count <count>', 'how many; 0 takes it back', '1')
    .option('--why <text>')
    .addHelpText(
      'after',
      '\nExample:\n  fettle want linnet head-gasket "Head gasket" --why "the old one is pressed"',
    )
    .action((job: string, id: string, name: string, said: { count: string; why?: string }) =>
      run(async (context) =>
        entered(
          await context.bench(job),
          () =>
            said.count.trim() === '0' || whole(said.count)
              ? ok({
                  kind: 'supply-wanted',
                  body: { need: id, name, count: Number(said.count), ...(said.why && { why: said.why }) },
                })
              : failed(badNumber('--count', said.count, 'a whole number, 0 or more')),
          said.count.trim() === '0' ? `${name}: no longer wanted.` : `${name} wanted.`,
        ),
      ),
    );
  program
    .command('terms <job> <party>')
    .description('what an hour or a delivery costs: of a supplier or shop by name, or of the "owner"')
    .option('--hour <sum>', 'what an hour of its work is worth')
    .option('--carriage <sum>', 'charged once, whatever is bought there')
    .option('--note <text>')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle terms linnet owner --hour 18\n  fettle terms linnet "Harbour Parts" --carriage 12',
    )
    .action((job: string, party: string, said: { hour?: string; carriage?: string; note?: string }) =>
      run(async (context) =>
        entered(
          await context.bench(job),
          (bench) => {
            const { issues, read } = sums(bench.book(), { '--hour': said.hour, '--carriage': said.carriage });
            if (issues.length > 0) return failed(...issues);
            return ok({
              kind: 'terms-given',
              body: present({
                party,
                hour: read['--hour'],
                carriage: read['--carriage'],
                note: said.note,
              }) as Body<'terms-given'>,
            });
          },
          `Terms of ${party} entered.`,
        ),
      ),
    );
  program
    .command('basket <job>')
    .description('the cheapest basket of what can be bought that covers what was decided, planned and wanted')
    .option('--within <time>', 'time there is, such as "6 weeks"; what the job says when absent')
    .option('--no-plan', 'without the repairs that the plan takes')
    .addHelpText('after', '\nExamples:\n  fettle basket linnet\n  fettle basket linnet --within "4 weeks"')
    .action((job: string, said: { within?: string; plan: boolean }) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? basketReply(bench.value.book(), said, context.io.now()) : bench;
      }),
    );
};

function supplySaid(
  book: Book,
  supply: string,
  name: string,
  said: SupplySaid,
): Outcome<Body<'supply-offered'>> {
  const { issues, read } = sums(book, { '--price': said.price });
  if (!whole(said.most)) issues.push(badNumber('--most', said.most!, 'a whole number over 0'));
  const trust = (['quoted', 'assumed'] as const).find((one) => one === said.trust);
  if (!trust)
    issues.push(
      issue(
        'offer/unknown-trust',
        '--trust',
        said.trust,
        'quoted, assumed',
        `A price is quoted or assumed, not "${said.trust}". Say --trust quoted or --trust assumed.`,
      ),
    );
  const covers = said.covers.map(coveredFrom);
  issues.push(...covers.flatMap((one) => (one.ok ? [] : one.issues)));
  if (issues.length > 0) return failed(...issues);
  return admittedSupply(
    book,
    present({
      supply,
      name,
      covers: covers.flatMap((one) => (one.ok ? [one.value] : [])),
      price: read['--price'],
      supplier: said.supplier,
      number: said.number,
      lead_time: said.lead,
      soonest: said.soonest,
      latest: said.latest,
      most: said.most === undefined ? undefined : Number(said.most),
      substitute_for: said.for,
      trust: trust!,
      note: said.note,
    }) as Body<'supply-offered'>,
  );
}

/** The basket of a job, with what the plan of repairs takes. */
export function basketSaid(
  book: Book,
  { within, plan }: { within?: string | undefined; plan: boolean },
  now: number,
): Outcome<{ basket: Basket; because?: Issue; days?: number }> {
  const days = within === undefined ? undefined : daysOf(within);
  if (within !== undefined && days === undefined)
    return failed(
      issue(
        'time/unreadable',
        '--within',
        within,
        'a number of days or weeks',
        `"${within}" is no time that can be reckoned with. Say it as "10 days" or "6 weeks".`,
      ),
    );
  const { taken, because } = plan
    ? plannedRepairs(book, assessment(book, asFittedNow(book), CATALOGUE), { now, days })
    : { taken: [], because: undefined };
  const basket = basketOf(book, { taken, now, ...(days !== undefined && { days }) });
  return ok({ basket, ...(because && { because }), ...(days !== undefined && { days }) });
}

function basketReply(book: Book, said: { within?: string; plan: boolean }, now: number): Outcome<Reply> {
  const found = basketSaid(book, said, now);
  if (!found.ok) return found;
  const { basket, because } = found.value;
  const over = basket.cap !== undefined && basket.price + basket.spent > basket.cap;
  return ok({
    json: {
      job: book.job,
      no_plan: because,
      needs: basket.needs.map(({ key, name, size, count, had, reasons }) => ({
        need: key,
        name,
        size,
        count,
        had,
        reasons,
      })),
      lines: basket.lines.map(({ covers, leadTime, substituteFor, ...line }) => ({
        ...line,
        lead_time: leadTime,
        substitute_for: substituteFor,
        covers: covers.map(({ need, count }) => ({ need: need.key, count })),
      })),
      carriage: basket.carriage,
      goods: basket.goods,
      price: basket.price,
      spent: basket.spent,
      spending_cap: basket.cap,
      left_over: basket.leftOver,
      unmet: basket.unmet.map(({ key, count }) => ({ need: key, count })),
      not_reckoned_with: basket.barred,
      alternatives: basket.alternatives,
      no_basket: basket.none,
      proven_cheapest: basket.proven,
      bound_if_split: basket.floor,
    },
    text: basketLines(book, basket, because).join('\n'),
    status: over || basket.unmet.length > 0 || basket.none !== undefined ? 1 : 0,
  });
}
