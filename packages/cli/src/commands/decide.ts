import { failed, ok } from '@fettle/core';
import { entered, issue } from '../entered.ts';
import type { Register } from '../registration.ts';
import { obtainableWords, unknownSize } from '../sheet-size.ts';

export const registerDecide: Register = (program, run) => {
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
                  `No part "${part}" has been entered. Enter it with "fettle part".`,
                ),
              );
            const badSize = unknownSize(bench.book(), said.size);
            if (badSize) return badSize;
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
          (book) =>
            `${part}: ${decision}${said.size === undefined ? '' : `, ${said.size}`}.${obtainableWords(book, said.size)}`,
        ),
      ),
    );
};
