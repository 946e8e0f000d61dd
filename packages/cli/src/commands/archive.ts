import { readFileSync, writeFileSync } from 'node:fs';
import { failed, type Outcome, ok } from '@fettle/core';
import { archiveOf, imported, readArchive } from '@fettle/store';
import type { Register } from '../registration.ts';

/** A file system's refusal, as something a person can put right. */
function fileFault<T>(path: string, what: string, work: () => T): Outcome<T> {
  try {
    return ok(work());
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return failed({
      code: `file/cannot-${what}`,
      at: path,
      got: code ?? String(error),
      wanted: `a file that can be ${what === 'read' ? 'read' : 'written'}`,
      message: `${path} cannot be ${what === 'read' ? 'read' : 'written'} (${code ?? String(error)}). Check the name and its rights.`,
    });
  }
}

export const registerExport: Register = (program, run) => {
  program
    .command('export <job>')
    .description('take a job out as one archive: ledger, spec sheets, photos, all in open formats')
    .requiredOption('--to <file>', 'the archive to write, a .zip')
    .addHelpText('after', '\nExample:\n  fettle export linnet --to linnet.zip')
    .action((name: string, said: { to: string }) =>
      run(async (context) => {
        const directory = await context.directory();
        if (!directory.ok) return directory;
        const bench = await context.bench(name);
        if (!bench.ok) return bench;
        const bytes = await archiveOf(directory.value.store, bench.value.job);
        if (!bytes.ok) return bytes;
        const kept = fileFault(said.to, 'write', () => writeFileSync(said.to, bytes.value));
        if (!kept.ok) return kept;
        return ok({
          json: { job: bench.value.job, file: said.to, bytes: bytes.value.length },
          text: `${bench.value.book().entries.length} entries written to ${said.to}.`,
        });
      }),
    );
};

export const registerImport: Register = (program, run) => {
  program
    .command('import <file>')
    .description('bring a job in from an archive; what is here already is not entered twice')
    .addHelpText('after', '\nExample:\n  fettle import linnet.zip')
    .action((file: string) =>
      run(async (context) => {
        const bytes = fileFault(file, 'read', () => new Uint8Array(readFileSync(file)));
        if (!bytes.ok) return bytes;
        const content = readArchive(bytes.value);
        if (!content.ok) return content;
        const directory = await context.directory();
        if (!directory.ok) return directory;
        const merged = await directory.value.writing(() => imported(directory.value.store, content.value));
        if (!merged.ok) return merged;
        const { added, known } = merged.value;
        return ok({
          json: { job: content.value.job, added: added.length, known: known.length },
          text: `Job ${content.value.job}: ${added.length} entries added, ${known.length} were here already.`,
        });
      }),
    );
};
