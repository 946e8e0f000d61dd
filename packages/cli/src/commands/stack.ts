import {
  type Book,
  type JobStack,
  jobStack,
  placeFrom,
  placeText,
  type StackAsked,
  stacksOf,
  stackWords,
} from '@fettle/book';
import { CATALOGUE, failed, issue, type Outcome, ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { blockLines } from '../words/block-lines.ts';
import { wrapped } from '../words/table.ts';

interface Said {
  readonly at?: string;
  readonly measured?: boolean;
  readonly shape?: string;
  readonly size?: string;
  readonly trials?: string;
  readonly seed?: string;
}

const SHAPES = ['rectangular', 'triangular', 'normal'] as const;

export const registerStack: Register = (program, run) => {
  program
    .command('stack <job> [characteristic]')
    .description(
      'what sizes add up to: worst case, root-sum-square and drawn, and which tolerance to tighten',
    )
    .option('--at <place>', 'where, such as "2"')
    .option('--measured', 'with what was measured instead of the limits for new parts')
    .option('--shape <shape>', `how a size lies between its limits: ${SHAPES.join(', ')}`)
    .option('--size <name>', 'parts made to this size, such as ".010 under"')
    .option('--trials <count>', 'how many are drawn', '100000')
    .option('--seed <number>', 'the same seed draws the same', '1')
    .addHelpText(
      'after',
      `
Without a characteristic: everything in this job that stacks up.

Examples:
  fettle stack linnet
  fettle stack linnet deck.squish
  fettle stack linnet crank.main-clearance-made --size ".010 under" --shape normal`,
    )
    .action((job: string, characteristic: string | undefined, said: Said) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        if (characteristic === undefined) return ok(listed(book));
        const asked = askedFrom(book, characteristic, said);
        if (!asked.ok) return asked;
        const found = jobStack(book, asked.value, CATALOGUE);
        return found.ok ? ok(stackReply(book, found.value)) : found;
      }),
    );
};

const MOST_TRIALS = 1_000_000;
const LEAST_TRIALS = 1000;
const GREATEST_SEED = 2 ** 31 - 1;

function askedFrom(book: Book, id: string, said: Said): Outcome<StackAsked> {
  const shape = SHAPES.find((one) => one === said.shape);
  if (said.shape !== undefined && !shape)
    return failed(
      issue(
        'stack/shape',
        '--shape',
        said.shape,
        SHAPES.join(', '),
        `There is no shape "${said.shape}". Take ${SHAPES.join(' or ')}.`,
      ),
    );
  const trials = wholeNumber(said.trials, '--trials', LEAST_TRIALS, MOST_TRIALS);
  if (!trials.ok) return trials;
  const seed = wholeNumber(said.seed, '--seed', 0, GREATEST_SEED);
  if (!seed.ok) return seed;
  const characteristic = book.characteristics.get(id);
  const place =
    said.at === undefined || !characteristic
      ? ok(undefined)
      : placeFrom(book.sheet ?? { axes: {} }, characteristic, said.at);
  if (!place.ok) return place;
  return ok({
    characteristic: id,
    by: said.measured ? 'measured' : 'drawing',
    ...(shape && { shape }),
    ...(said.size !== undefined && { size: said.size }),
    ...(place.value && { place: place.value }),
    trials: trials.value,
    seed: seed.value,
  });
}

function wholeNumber(text: string | undefined, at: string, min: number, max: number): Outcome<number> {
  const value = Number(text);
  if (Number.isInteger(value) && value >= min && value <= max) return ok(value);
  return failed(
    issue(
      'stack/not-whole',
      at,
      text ?? '',
      `${min} to ${max}`,
      `${at} takes a whole number from ${min} to ${max}.`,
    ),
  );
}

function listed(book: Book): Reply {
  const rows = stacksOf(book, CATALOGUE).map(({ characteristic, by, terms }) => ({
    characteristic,
    terms,
    found: by.flatMap((way) => {
      const found = jobStack(book, { characteristic: characteristic.id, by: way }, CATALOGUE);
      return found.ok ? [found.value] : [];
    }),
  }));
  return {
    json: {
      job: book.job,
      stacks: rows.map(({ characteristic, terms, found }) => ({
        characteristic: characteristic.id,
        terms,
        ways: found.map(({ by, stack, outside }) => ({
          by,
          worst: stack.worst,
          root_sum_square: stack.rootSumSquare,
          outside,
        })),
      })),
    },
    text:
      rows.length === 0
        ? stackWords.NO_STACKS
        : [
            'What stacks up',
            ...rows.flatMap(({ characteristic, terms, found }) => [
              `  ${characteristic.name} [${characteristic.id}], ${terms} terms`,
              ...found.flatMap((one) =>
                wrapped(
                  `${one.by === 'drawing' ? 'by limits for new' : 'as measured'}: ${stackWords.stackLine(one)}`,
                  100,
                  '  ',
                ).map((line) => `    ${line}`),
              ),
            ]),
          ].join('\n'),
  };
}

function stackReply(book: Book, found: JobStack): Reply {
  const { stack, leaves, limits, outside, tighten } = found;
  return {
    json: {
      job: book.job,
      characteristic: found.characteristic.id,
      at: placeText(found.place),
      by: found.by,
      shape: found.shape,
      trials: found.trials,
      seed: found.seed,
      value: stack.value,
      worst: stack.worst,
      root_sum_square: stack.rootSumSquare,
      drawn: {
        mean: stack.spread.mean,
        u: stack.spread.u,
        low: stack.spread.quantile(0.025),
        high: stack.spread.quantile(0.975),
        lost: stack.spread.lost,
      },
      limits,
      outside,
      terms: leaves.map(({ characteristic, place, from, term, entries }, i) => ({
        characteristic: characteristic.id,
        at: placeText(place),
        from,
        lower: term.lower,
        upper: term.upper,
        slope: stack.effects[i]!.slope,
        reach: stack.effects[i]!.reach,
        share: stack.effects[i]!.share,
        entries,
      })),
      tighten: {
        characteristic: tighten.leaf.characteristic.id,
        root_sum_square: tighten.rootSumSquare,
        outside: tighten.outside,
      },
    },
    text: blockLines(stackWords.stackBlock(book, found)).join('\n').replace(/^\n/, ''),
  };
}
