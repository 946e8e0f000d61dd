import { type Book, DEFAULT_UNCERTAINTIES } from '@fettle/book';
import { failed, type Issue, kindsOf, type Outcome, ok, parseQuantity } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { table } from '../words/table.ts';

interface Said {
  readonly type?: string;
  readonly u?: string;
  readonly coverage?: string;
  readonly common?: string;
  readonly leaves?: string;
  readonly against?: string;
  readonly read?: string;
  readonly good?: boolean;
  readonly note?: string;
}

const issue = (code: string, at: string, got: string, wanted: string, message: string): Issue => ({
  code,
  at,
  got,
  wanted,
  message,
});

export const registerTools: Register = (program, run) => {
  program
    .command('tools <job> [action] [id] [name]')
    .description('the instruments owned: list them, "add" one, or log a "check" of one against a standard')
    .option('--type <type>', 'micrometer, dial bore gauge, feeler leaves …')
    .option('--u <U>', 'expanded uncertainty of a reading, such as "0.0002 in" or "3 %"')
    .option('--coverage <k>', 'U = k u', '2')
    .option('--common <share>', 'share of the variance common to all its readings', '0.5')
    .option('--leaves <leaves>', 'feeler leaves owned, such as "1.5thou 2thou 3thou"')
    .option('--against <standard>', 'check: what it was held against')
    .option('--read <quantity>', 'check: what it read')
    .option('--no-good', 'check: it failed')
    .option('--note <text>')
    .addHelpText(
      'after',
      `
Examples:
  fettle tools linnet
  fettle tools linnet add mic "Micrometer 2-3 in" --type micrometer --u "0.0002 in"
  fettle tools linnet add leaves "Feeler leaves" --type "feeler leaves" --u "0.0005 in" --leaves "2thou 3thou 4thou"
  fettle tools linnet check mic --against "2.0000 in" --read "2.0001 in"`,
    )
    .action(
      (
        job: string,
        action: string | undefined,
        id: string | undefined,
        name: string | undefined,
        said: Said,
      ) =>
        run(async (context) => {
          const bench = await context.bench(job);
          if (!bench.ok) return bench;
          if (action === undefined) return ok(listed(bench.value.book()));
          const draft =
            action === 'add'
              ? declaration(id, name, said)
              : action === 'check'
                ? check(bench.value.book(), id, said)
                : failed(
                    issue(
                      'command/bad-use',
                      'action',
                      action,
                      'add or check',
                      `"${action}" is nothing to do with tools. Say add or check.`,
                    ),
                  );
          if (!draft.ok) return draft;
          const written = await bench.value.write([draft.value]);
          if (!written.ok) return written;
          const instrument = bench.value.book().instruments.get(id!);
          const words =
            action === 'add'
              ? `${instrument?.body.name}: ±${instrument?.body.uncertainty.expanded} at about 95 %${instrument?.body.trust === 'default' ? ' (a default; state your own with --u)' : ''}`
              : `Check of ${id} logged${said.good === false ? ' as failed: its readings since the last good check are in doubt' : ''}.`;
          return ok({ json: written.value[0], text: words });
        }),
    );
};

function listed(book: Book): Reply {
  const instruments = [...book.instruments.values()].map(({ body }) => body);
  const rows = instruments.map((body) => [
    body.instrument,
    body.name,
    body.type,
    `±${body.uncertainty.expanded}`,
    body.trust === 'default' ? 'default, not stated by its owner' : '',
    body.leaves ? `${body.leaves.length} leaves` : '',
  ]);
  return {
    json: instruments,
    text:
      rows.length > 0
        ? table([['id', 'name', 'type', 'U (k = 2)', '', ''], ...rows]).join('\n')
        : 'No instrument declared. Add one with "fettle tools JOB add ID NAME --type TYPE --u U".',
  };
}

function declaration(id: string | undefined, name: string | undefined, said: Said): Outcome<Draft> {
  const issues: Issue[] = [];
  if (id === undefined || name === undefined || said.type === undefined)
    return failed(
      issue(
        'command/bad-use',
        'tools add',
        `id ${id ?? 'missing'}, name ${name ?? 'missing'}, type ${said.type ?? 'missing'}`,
        'an id, a name and --type',
        'An instrument needs an id, a name and a type: fettle tools JOB add mic "Micrometer 2-3 in" --type micrometer',
      ),
    );
  const usual = DEFAULT_UNCERTAINTIES[said.type];
  const expanded = said.u ?? usual?.expanded;
  if (expanded === undefined)
    issues.push(
      issue(
        'instrument/no-uncertainty',
        '--u',
        'none',
        'an expanded uncertainty such as "0.0005 in"',
        `There is no default for "${said.type}". State the uncertainty with --u, or take one of the types ${Object.keys(DEFAULT_UNCERTAINTIES).join(', ')}.`,
      ),
    );
  else if (!readsAsUncertainty(expanded))
    issues.push(
      issue(
        'instrument/unreadable-uncertainty',
        '--u',
        expanded,
        'a quantity over 0 with its unit, or a share such as "3 %"',
        `"${expanded}" is no uncertainty. Say one over 0 with its unit, such as "0.0005 in", or as "3 %".`,
      ),
    );
  const share = Number(said.common);
  if (!(share >= 0 && share <= 1))
    issues.push(
      issue(
        'number/out-of-range',
        '--common',
        String(said.common),
        '0 to 1',
        'The common share is a number from 0 to 1.',
      ),
    );
  const coverage = Number(said.coverage);
  if (!(coverage > 0 && coverage < 10))
    issues.push(
      issue(
        'number/out-of-range',
        '--coverage',
        String(said.coverage),
        'a number over 0, usually 2',
        'The coverage factor is a number over 0, usually 2.',
      ),
    );
  const leaves = said.leaves?.split(/\s+/).filter((leaf) => leaf !== '');
  for (const leaf of leaves ?? []) {
    const read = parseQuantity(leaf, 'length');
    if (!read.ok) issues.push(...read.issues.map((one) => ({ ...one, at: '--leaves' })));
  }
  if (issues.length > 0) return failed(...issues);
  return ok({
    kind: 'instrument-declared',
    body: {
      instrument: id,
      name,
      type: said.type,
      uncertainty: { expanded: expanded!, coverage, common_share: share },
      trust: said.u === undefined ? 'default' : 'stated',
      ...(leaves && { leaves }),
      ...(said.note !== undefined && { note: said.note }),
    },
  });
}

/** Over zero: an instrument without any doubt would decide everything. */
function readsAsUncertainty(text: string): boolean {
  const kinds = text.trim().endsWith('%') ? (['ratio'] as const) : kindsOf(unitIn(text));
  return kinds.some((kind) => {
    const read = parseQuantity(text, kind);
    // A difference of temperatures: its size counts, not where its scale begins.
    return read.ok && read.value.said > 0;
  });
}

const unitIn = (text: string): string => text.trim().replace(/^[\d.,/\s+-]+/, '');

function check(book: Book, id: string | undefined, said: Said): Outcome<Draft> {
  if (id === undefined || !book.instruments.has(id) || said.against === undefined || said.read === undefined)
    return failed(
      issue(
        'command/bad-use',
        'tools check',
        `${id ?? 'no instrument'}, against ${said.against ?? 'nothing'}, read ${said.read ?? 'nothing'}`,
        'a declared instrument, --against and --read',
        `A check names a declared instrument (${[...book.instruments.keys()].join(', ') || 'none yet'}), what it was held --against and what it --read.`,
      ),
    );
  const quantities = [
    ['--against', said.against],
    ['--read', said.read],
  ] as const;
  const faults = quantities.flatMap(([at, text]) =>
    kindsOf(unitIn(text)).some((kind) => parseQuantity(text, kind).ok)
      ? []
      : [
          issue(
            'unit/unknown',
            at,
            text,
            'a quantity with its unit',
            `"${text}" is no quantity. Say ${at} with its unit, such as "2.0000 in".`,
          ),
        ],
  );
  if (faults.length > 0) return failed(...faults);
  const alike = kindsOf(unitIn(said.against)).some((kind) => kindsOf(unitIn(said.read!)).includes(kind));
  if (!alike)
    return failed(
      issue(
        'unit/wrong-kind',
        '--read',
        said.read,
        `a quantity like ${said.against}`,
        `It was held against ${said.against} and is said to have read ${said.read}: the two are not of one kind. Correct one of them.`,
      ),
    );
  return ok({
    kind: 'instrument-checked',
    body: {
      instrument: id,
      against: said.against,
      read: said.read,
      good: said.good !== false,
      ...(said.note !== undefined && { note: said.note }),
    },
  });
}
