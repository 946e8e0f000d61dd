import { ok } from '@fettle/core';
import { titledJobs } from '../bench.ts';
import type { Register } from '../registration.ts';
import { table } from '../words/table.ts';

export const registerJobs: Register = (program, run) => {
  program
    .command('jobs')
    .description('the jobs in the data directory')
    .addHelpText('after', '\nExample:\n  fettle jobs --json')
    .action(() =>
      run(async (context) => {
        const directory = await context.directory();
        if (!directory.ok) return directory;
        const jobs = await titledJobs(directory.value);
        if (!jobs.ok) return jobs;
        const rows = jobs.value.map(({ job, title, entries, opened }) => [
          title,
          job,
          `${entries} entries`,
          opened === undefined ? '' : `opened ${opened.slice(0, 10)}`,
        ]);
        return ok({
          json: jobs.value,
          text: rows.length > 0 ? table(rows).join('\n') : 'No job yet. Start one with "fettle new".',
        });
      }),
    );
};
