import { ok } from '@fettle/core';
import { entered } from '../entered.ts';
import type { Register } from '../registration.ts';

export const registerNote: Register = (program, run) => {
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
};
