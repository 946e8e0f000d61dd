import {
  type Assessed,
  asFittedNow,
  asFound,
  assessment,
  type Block,
  type Book,
  diagnosed,
  diagnosisWorking,
  filledCircuit,
  furtherMoves,
  placeText,
  planningOf,
  planWorking,
  Reckoning,
  relationWords,
  repairPlan,
  sourcedName,
  sourcesOf,
  unknownCharacteristic,
} from '@fettle/book';
import { CATALOGUE, failed, type Outcome, ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { blockLines } from '../words/block-lines.ts';
import { nameOf } from '../words/judgement.ts';
import { judgementWithFurther } from '../words/judgement-json.ts';
import { stairWorking, stairWorkingLines } from '../words/stair-working.ts';
import { workingLines } from '../words/working.ts';
import { conditionsOf } from './oil.ts';

/** How sure `fettle plan` is asked to be when nothing is said. */
const CONFIDENCE = 0.95;

export const registerWhy: Register = (program, run) => {
  program
    .command('why <job> <name>')
    .description(
      'the working behind a figure: limits and where they come from, readings, uncertainty, what decided',
    )
    .option('--as-found', 'the engine as it came')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle why linnet pump.end-clearance\n  fettle why linnet crank.rod-journal@2\n  fettle why linnet stair                     where the treads of the pressure stair come from\n  fettle why linnet plan                      what the cheapest plan is worked out from\n  fettle why linnet diagnosis                 how the faults are weighed, and by which readings',
    )
    .action((job: string, name: string, said: { asFound?: boolean }) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        if (name === 'stair') return stairBehind(book, said.asFound === true);
        if (name === 'plan') return planBehind(book, context.io.now());
        if (name === 'diagnosis') return diagnosisBehind(book);
        const [id, at] = name.split('@');
        if (!book.characteristics.has(id!)) return failed(unknownCharacteristic(book, id!));
        const { judgements, reckoning } = assessment(
          book,
          said.asFound ? asFound(book) : asFittedNow(book),
          CATALOGUE,
        );
        const meant = judgements.filter(
          (j) => j.characteristic.id === id && (at === undefined || placeText(j.place) === at),
        );
        if (meant.length === 0)
          return failed({
            code: 'place/unknown',
            at: id!,
            got: at ?? '',
            wanted: judgements
              .filter((j) => j.characteristic.id === id)
              .map(nameOf)
              .join(', '),
            message: `Nothing is judged at "${at}". Take one of ${judgements
              .filter((j) => j.characteristic.id === id)
              .map(nameOf)
              .join(', ')}.`,
          });
        return ok({
          json: meant.map((judgement) => ({
            ...judgementWithFurther(judgement, furtherMoves(reckoning, judgement)),
            working: workingJson(book, judgement),
          })),
          text: meant
            .flatMap((judgement) => workingLines(book, judgement, furtherMoves(reckoning, judgement)))
            .join('\n'),
        });
      }),
    );
};

/** Where the shares of the pressure stair come from, at the sheet's first condition. */
function stairBehind(book: Book, found: boolean): Outcome<Reply> {
  const reckoning = new Reckoning(book, found ? asFound(book) : asFittedNow(book), CATALOGUE);
  const circuit = filledCircuit(book, reckoning);
  if (!circuit.ok) return circuit;
  const conditions = conditionsOf(book, {});
  if (!conditions.ok) return conditions;
  const [condition] = conditions.value;
  if (!condition)
    return failed({
      code: 'oil/no-condition',
      at: 'stair',
      got: 'a sheet without speeds',
      wanted: 'speeds of the oil circuit',
      message: 'The sheet names no speed, so there is no stair. Add speeds to its oil.',
    });
  return balanced('stair', () => {
    const working = stairWorking(circuit.value, condition);
    return { json: working, text: stairWorkingLines(book, condition, working).join('\n') };
  });
}

/** What the cheapest plan is worked out from, as sure as `fettle plan` wants it unless it is told otherwise. */
function planBehind(book: Book, now: number): Outcome<Reply> {
  const planning = planningOf(book, assessment(book, asFittedNow(book), CATALOGUE), {
    confidence: CONFIDENCE,
    now,
  });
  if (!planning.ok) return planning;
  return balanced('plan', () => {
    const plan = { ...planning.value, ...repairPlan(planning.value) };
    return blocksReply(planWorking(book, plan));
  });
}

/** How the faults are weighed: the engine as found, its measured clearances counted where there are any. */
function diagnosisBehind(book: Book): Outcome<Reply> {
  const reckoning = new Reckoning(book, asFound(book), CATALOGUE);
  const found = diagnosed(book, reckoning, { known: 'measured', when: 'as-found' });
  if (!found.ok) return found;
  const circuit = filledCircuit(book, reckoning);
  return ok(
    blocksReply(diagnosisWorking(book, found.value, circuit.ok ? circuit.value.parameters : undefined)),
  );
}

const blocksReply = (blocks: readonly Block[]): Reply => ({
  json: blocks,
  text: blocks.flatMap(blockLines).join('\n').trimStart(),
});

/** What cannot be solved is told, not thrown. */
function balanced(at: string, worked: () => Reply): Outcome<Reply> {
  try {
    return ok(worked());
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return failed({
      code: 'oil/no-balance',
      at,
      got: 'the clearances measured and on offer',
      wanted: 'a circuit that balances',
      message: `The circuit cannot be solved there: ${error.message}`,
    });
  }
}

function workingJson(book: Book, judgement: Assessed) {
  const { characteristic, operand } = judgement;
  return {
    formula: characteristic.relation === undefined ? undefined : relationWords(characteristic.relation),
    sources: Object.fromEntries(
      (['new', 'wear'] as const).flatMap((set) =>
        characteristic.limits?.[set]
          ? sourcesOf(characteristic, set).map((one, _, all) => [
              sourcedName(set, one, all.length),
              one.source,
            ])
          : [],
      ),
    ),
    budget: operand.kind === 'value' ? operand.q.terms : [],
    readings: book.readings
      .filter(({ entry }) => judgement.entries.includes(entry.id))
      .map(({ entry }) => entry),
  };
}
