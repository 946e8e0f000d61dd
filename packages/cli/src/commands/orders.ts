import type { Body } from '@fettle/book';
import { failed, type Issue, ok } from '@fettle/core';
import { entered, issue, plainNumber, present } from '../entered.ts';
import type { Register } from '../registration.ts';

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

export const registerOrders: Register = (program, run) => {
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
};
