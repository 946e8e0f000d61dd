import type { Entry } from '@fettle/book';
import { noticesOf } from '@fettle/book';
import { ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import { table } from '../words/table.ts';

/** The one or two words of an entry that tell it from its neighbours. */
function gist({ body }: Entry): string {
  const words = [
    'characteristic',
    'instrument',
    'part',
    'position',
    'fastener',
    'cover',
    'opening',
    'joint',
    'offer',
    'entry',
    'item',
    'title',
    'text',
    'pressure',
    'what',
    'against',
  ].flatMap((key) => (typeof body[key] === 'string' ? [String(body[key])] : []));
  const said = [
    'value',
    'goes',
    'stops',
    'found',
    'torque',
    'speed',
    'decision',
    'read',
    'add',
    'state',
    'by',
    'mark',
    'home',
    'why',
  ].flatMap((key) =>
    // The state a reading belongs to is an entry, and tells a reader nothing.
    typeof body[key] === 'string' && !(key === 'state' && 'characteristic' in body)
      ? [`${key === 'goes' || key === 'stops' ? `${key} ` : ''}${body[key]}`]
      : [],
  );
  const place = Object.values((body.place as Record<string, string> | undefined) ?? {}).join('/');
  const laid = (['goes', 'stops'] as const).flatMap((key) => {
    const stack = body[`${key}_stack`];
    return Array.isArray(stack) ? [`${key} as ${stack.join(' + ')} together`] : [];
  });
  const line = [...words, ...(place === '' ? [] : [place]), ...said, ...laid].join('  ');
  return line.length > 100 ? `${line.slice(0, 99)}…` : line;
}

export const registerLog: Register = (program, run) => {
  program
    .command('log <job>')
    .description('the ledger, entry by entry, struck ones marked')
    .option('--kind <kind>', 'only entries of one kind')
    .addHelpText('after', '\nExample:\n  fettle log linnet --kind reading')
    .action((job: string, said: { kind?: string }) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const kinds = [...new Set(book.entries.map(({ kind }) => kind))].join(', ');
        const entries = book.entries.filter(({ kind }) => said.kind === undefined || kind === said.kind);
        const rows = entries.map((entry) => [
          book.struck.has(entry.id) ? '✗' : ' ',
          entry.id,
          entry.at.slice(0, 16).replace('T', ' '),
          entry.who,
          entry.kind,
          gist(entry),
        ]);
        return ok({
          json: entries.map((entry) => ({ ...entry, struck: book.struck.has(entry.id) })),
          text: [
            ...noticesOf(book).map((notice) => `! ${notice}`),
            ...(rows.length > 0
              ? table(rows)
              : [`No entry is of the kind "${said.kind}". There are ${kinds}.`]),
          ].join('\n'),
        });
      }),
    );
};
