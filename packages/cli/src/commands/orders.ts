import {
  asFittedNow,
  assessment,
  type Body,
  type Book,
  basketWords,
  moneyWords,
  orderStandings,
  sumSaid,
} from '@fettle/book';
import { CATALOGUE, failed, type Issue, issue, type Outcome, ok } from '@fettle/core';
import { entered, plainNumber, present } from '../entered.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { nameOf } from '../words/judgement.ts';

const sum = (at: string, text: string | undefined): Issue[] =>
  text === undefined || plainNumber(text) !== undefined
    ? []
    : [
        issue(
          'number/unreadable',
          at,
          text,
          'a number, 0 or more',
          `"${text}" is no number. Give ${at} as a plain number of 0 or more, such as 26.`,
        ),
      ];

function unknownSupply({ supplies, offers }: Book, id: string | undefined): Issue[] {
  if (id === undefined || supplies.has(id) || offers.has(id)) return [];
  const known = [...supplies.keys(), ...offers.keys()];
  return [
    issue(
      'order/unknown-supply',
      '--supply',
      id,
      known.join(', ') || 'a supply or a repair on offer',
      `Nothing on record is called "${id}". ${known.length > 0 ? `There is ${known.join(', ')}.` : 'Enter it first with "fettle supply".'}`,
    ),
  ];
}

const badCount = (text: string | undefined): Issue[] =>
  text === undefined || /^[1-9]\d{0,5}$/.test(text.trim())
    ? []
    : [
        issue(
          'number/unreadable',
          '--count',
          text,
          'a whole number over 0',
          `"${text}" is no count. Give --count as a whole number such as 4.`,
        ),
      ];

export const registerOrders: Register = (program, run) => {
  program
    .command('order <job> <item>')
    .description('enter something ordered')
    .option('--part <part>', 'an id it will be entered under')
    .option('--supplier <name>')
    .option('--number <number>', 'as marked')
    .option('--price <sum>')
    .option('--lead-days <days>')
    .option('--supply <id>', 'the supply or the repair on offer that is taken by it')
    .option('--count <count>', 'how many of it')
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
          supply?: string;
          count?: string;
          note?: string;
        },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            (bench) => {
              const price =
                said.price === undefined
                  ? ok(undefined)
                  : sumSaid('--price', said.price, moneyWords.currencyOf(bench.book()));
              const issues = [
                ...(price.ok ? [] : price.issues),
                ...sum('--lead-days', said.leadDays),
                ...unknownSupply(bench.book(), said.supply),
                ...badCount(said.count),
              ];
              if (!price.ok || issues.length > 0) return failed(...issues);
              return ok({
                kind: 'order',
                body: present({
                  item,
                  part: said.part,
                  supplier: said.supplier,
                  number: said.number,
                  price: price.value,
                  lead_days: said.leadDays === undefined ? undefined : Number(said.leadDays),
                  supply: said.supply,
                  count: said.count === undefined ? undefined : Number(said.count),
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
                  `Nothing called "${named}" is on order. ${orders.length > 0 ? `On order: ${orders.map(({ body }) => body.item).join(', ')}.` : 'Enter the order first with "fettle order".'}`,
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
  program
    .command('orders <job>')
    .description('the parts list: what was ordered, from whom, and whether it came and was measured')
    .addHelpText('after', '\nExample:\n  fettle orders linnet')
    .action((job: string) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? partsList(bench.value.book()) : bench;
      }),
    );
};

function partsList(book: Book): Outcome<Reply> {
  const standings = orderStandings(book, assessment(book, asFittedNow(book), CATALOGUE).judgements);
  return ok({
    json: standings.map(({ order, state, part, readings, out, substituteFor }) => ({
      order: order.entry.id,
      ...order.body,
      substitute_for: substituteFor,
      state,
      entered_as: part?.id,
      readings,
      out: out.map(nameOf),
    })),
    text:
      standings.length === 0
        ? 'Nothing was ordered. Enter an order with "fettle order".'
        : standings
            .flatMap((one) => [
              [one.order.body.item, ...basketWords.orderDetails(one)].join(', '),
              `    ${basketWords.standingWords(one)}`,
            ])
            .join('\n'),
  });
}
