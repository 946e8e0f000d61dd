import type { Body } from '@fettle/book';
import { failed, type Outcome, ok } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Bench } from '../bench.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { unknownSize } from '../sheet-size.ts';

const CONDITIONS = ['used', 'new', 'machined'] as const;
type Condition = (typeof CONDITIONS)[number];

interface Said {
  readonly condition: string;
  readonly at?: string;
  readonly way?: string;
  readonly size?: string;
  readonly mark?: string;
  readonly note?: string;
  readonly by?: string;
  readonly blasted?: boolean;
}

export const registerParts: Register = (program, run) => {
  program
    .command('part <job> <id> <name>')
    .description('enter a part, and with --at fit it where it came from or goes')
    .option('--condition <condition>', CONDITIONS.join(', '), 'used')
    .option('--at <position>', 'the position it is fitted in')
    .option('--way <words>', 'which way round')
    .option('--size <name>', 'a size of the spec sheet, such as ".030 over"')
    .option('--mark <words>', 'what is stamped on it')
    .option('--note <text>')
    .addHelpText('after', '\nExample:\n  fettle part linnet gears-new "Pump gears, new" --condition new')
    .action((job: string, id: string, name: string, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? entered(bench.value, id, name, said) : bench;
      }),
    );
  program
    .command('fit <job> <position> [part]')
    .description(
      'fit a part in a position, displacing what was there; without a part, take out what is there',
    )
    .option('--way <words>', 'which way round')
    .addHelpText('after', '\nExample:\n  fettle fit linnet pump-gears gears-new')
    .action((job: string, position: string, part: string | undefined, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? fitted(bench.value, position, part, said) : bench;
      }),
    );
  program
    .command('rework <job> <part> <what>')
    .description('a part came back machined: its earlier readings stay as history, new ones begin')
    .option('--size <name>', 'a size of the spec sheet, such as ".010 under"')
    .option('--condition <condition>', 'machined, used', 'machined')
    .option('--by <name>')
    .option('--blasted', 'grit may be in every passage: held until opened, washed, blown and seen through')
    .addHelpText(
      'after',
      '\nExample:\n  fettle rework linnet crank "mains and rods ground" --size ".010 under"',
    )
    .action((job: string, part: string, what: string, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? reworked(bench.value, part, what, said) : bench;
      }),
    );
};

const badCondition = (got: string, wanted: readonly string[]) =>
  failed({
    code: 'part/unknown-condition',
    at: '--condition',
    got,
    wanted: wanted.join(', '),
    message: `A part is ${wanted.join(', ')}, not "${got}".`,
  });

async function entered(bench: Bench, id: string, name: string, said: Said): Promise<Outcome<Reply>> {
  const condition = CONDITIONS.find((known) => known === said.condition);
  if (!condition) return badCondition(said.condition, CONDITIONS);
  const badSize = unknownSize(bench.book(), said.size);
  if (badSize) return badSize;
  if (bench.book().parts.has(id))
    return failed({
      code: 'part/known',
      at: 'id',
      got: id,
      wanted: 'an id no part has',
      message: `There is a part "${id}" already (${bench.book().parts.get(id)!.name}). Give this one another id, or use "fettle rework" if it came back machined.`,
    });
  const drafts: Draft[] = [
    {
      kind: 'part-entered',
      body: {
        part: id,
        name,
        condition,
        ...(said.size !== undefined && { size: said.size }),
        ...(said.mark !== undefined && { mark: said.mark }),
        ...(said.note !== undefined && { note: said.note }),
      },
    },
  ];
  if (said.at !== undefined) {
    const unknown = unknownPosition(bench, said.at);
    if (unknown) return unknown;
    drafts.push(fitting(said.at, id, said.way));
  }
  const written = await bench.write(drafts);
  if (!written.ok) return written;
  return ok({
    json: written.value,
    text: `${name} entered${said.at === undefined ? '' : ` and fitted at ${said.at}`}.`,
  });
}

const fitting = (position: string, part: string | null, way: string | undefined): Draft => ({
  kind: 'part-fitted',
  body: { position, part, ...(way !== undefined && { way }) } satisfies Body<'part-fitted'>,
});

/** Positions are the sheet's; one that no characteristic knows would never be judged. */
function unknownPosition(bench: Bench, position: string): Outcome<never> | undefined {
  const { sheet } = bench.book();
  if (!sheet || sheet.positions.length === 0) return undefined;
  const known = sheet.positions.flatMap(({ id, places }) =>
    (places ?? []).reduce<string[]>(
      (ids, axis) =>
        ids.flatMap((one) => (sheet.axes[axis] ?? []).map((value) => one.replace(`{${axis}}`, value))),
      [id],
    ),
  );
  if (known.includes(position)) return undefined;
  return failed({
    code: 'position/unknown',
    at: 'position',
    got: position,
    wanted: known.join(', '),
    message: `The spec sheet has no position "${position}". It has ${someOf(known)}.`,
  });
}

/** Names to choose from, not more than a person reads. */
const someOf = (names: readonly string[]): string =>
  names.length === 0 ? 'none yet' : `${names.slice(0, 16).join(', ')}${names.length > 16 ? ' …' : ''}`;

const unknownPart = (bench: Bench, part: string) =>
  failed({
    code: 'part/unknown',
    at: 'part',
    got: part,
    wanted: [...bench.book().parts.keys()].join(', ') || 'none entered yet',
    message: `No part "${part}" has been entered. Enter it with "fettle part", or take one of ${someOf([...bench.book().parts.keys()])}.`,
  });

async function fitted(
  bench: Bench,
  position: string,
  part: string | undefined,
  said: Said,
): Promise<Outcome<Reply>> {
  if (part !== undefined && !bench.book().parts.has(part)) return unknownPart(bench, part);
  const unknown = unknownPosition(bench, position);
  if (unknown) return unknown;
  const before = bench.book().positions.get(position)?.now?.part;
  const written = await bench.write([fitting(position, part ?? null, said.way)]);
  if (!written.ok) return written;
  const out = before === undefined || before === part ? '' : `, in place of ${before}`;
  return ok({
    json: written.value[0],
    text: part === undefined ? `${position} is empty now${out}.` : `${part} fitted at ${position}${out}.`,
  });
}

async function reworked(bench: Bench, part: string, what: string, said: Said): Promise<Outcome<Reply>> {
  const condition = (['machined', 'used'] as const).find((known) => known === (said.condition as Condition));
  if (!condition) return badCondition(said.condition, ['machined', 'used']);
  if (!bench.book().parts.has(part)) return unknownPart(bench, part);
  const badSize = unknownSize(bench.book(), said.size);
  if (badSize) return badSize;
  const written = await bench.write([
    {
      kind: 'part-reworked',
      body: {
        part,
        what,
        condition,
        ...(said.size !== undefined && { size: said.size }),
        ...(said.by !== undefined && { by: said.by }),
        ...(said.blasted && { blasted: true as const }),
      },
    },
  ]);
  if (!written.ok) return written;
  return ok({
    json: written.value[0],
    text: `${part}: ${what}. Earlier readings are kept as history; it has to be measured anew.`,
  });
}
