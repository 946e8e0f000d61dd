import { failed, ok } from '@fettle/core';
import type { Register } from '../registration.ts';

export const registerStrike: Register = (program, run) => {
  program
    .command('strike <job> <entry>')
    .description('strike an entry, as one strikes a line in a paper book; striking a strike brings it back')
    .requiredOption('--why <text>', 'the reason')
    .addHelpText(
      'after',
      '\nExample:\n  fettle strike linnet 01965c1e-… --why "read off the wrong journal"\n  Entry ids: fettle log JOB',
    )
    .action((job: string, named: string, said: { why: string }) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const found = bench.value
          .book()
          .entries.filter(({ id }) => id === named || (named.length >= 8 && id.startsWith(named)));
        const [entry] = found;
        if (!entry || found.length > 1)
          return failed({
            code: entry ? 'entry/ambiguous' : 'entry/unknown',
            at: 'entry',
            got: named,
            wanted: 'the id of one entry of this job, or the beginning of it (8 characters or more)',
            message: `"${named}" names ${found.length === 0 ? 'no entry' : `${found.length} entries`} of this job. "fettle log" lists them.`,
          });
        if (entry.kind === 'job-opened')
          return failed({
            code: 'strike/opening',
            at: entry.id,
            got: 'job-opened',
            wanted: 'another entry',
            message: 'The opening of a job cannot be struck: everything rests on it.',
          });
        const written = await bench.value.write([
          { kind: 'strike', body: { entry: entry.id, why: said.why } },
        ]);
        if (!written.ok) return written;
        return ok({
          json: written.value[0],
          text: `Struck: ${entry.kind} of ${entry.at.slice(0, 16)} by ${entry.who}. ${said.why}`,
        });
      }),
    );
};
