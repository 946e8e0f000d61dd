import { asFittedNow, filledCircuit, priming, primingWords, Reckoning } from '@fettle/book';
import { CATALOGUE, failed, ok, parseQuantity, standardUncertainty, type Uncertain } from '@fettle/core';
import { overZero, quantities } from '../entered.ts';
import type { Register } from '../registration.ts';
import { primingLines } from '../words/priming-lines.ts';

const q = (one: Uncertain) => ({ value: one.value, standard_uncertainty: standardUncertainty(one) });

export const registerPrime: Register = (program, run) => {
  program
    .command('prime <job>')
    .description('whether the pump, with the clearances it has, lifts oil to itself dry, and what to do')
    .option('--drill <speed>', 'of the pump, such as 500rpm, when a drill drives it')
    .option('--temperature <t>', 'of oil and air; the sheet’s cold when absent')
    .addHelpText('after', '\nExample:\n  fettle prime linnet --drill 600rpm --temperature 10degC')
    .action((job: string, said: { drill?: string; temperature?: string }) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const issues = [
          ...quantities([
            ['--drill', said.drill, 'speed'],
            ['--temperature', said.temperature, 'temperature'],
          ]),
          ...(said.drill === undefined ? [] : overZero('--drill', said.drill, 'speed')),
        ];
        if (issues.length > 0) return failed(...issues);
        const si = (text: string | undefined, kind: 'speed' | 'temperature'): number | undefined => {
          const read = text === undefined ? undefined : parseQuantity(text, kind);
          return read?.ok ? read.value.value : undefined;
        };
        const [drill, temperature] = [si(said.drill, 'speed'), si(said.temperature, 'temperature')];
        const book = bench.value.book();
        const circuit = filledCircuit(book, new Reckoning(book, asFittedNow(book), CATALOGUE));
        if (!circuit.ok) return circuit;
        const answer = priming(book, circuit.value, {
          ...(drill !== undefined && { drill }),
          ...(temperature !== undefined && { temperature }),
        });
        if (!answer.ok) return answer;
        const { drives, neededSpeed, ...rest } = answer.value;
        return ok({
          json: {
            job: book.job,
            lift: rest.lift,
            temperature: rest.temperature,
            drives: drives.map(({ dry, sealed, ...drive }) => ({ ...drive, dry: q(dry), sealed: q(sealed) })),
            needed_speed: neededSpeed && q(neededSpeed),
            sealing_ratio: rest.sealing,
            passages: rest.passages,
            steps: primingWords.primingSteps(book, answer.value),
          },
          text: primingLines(book, answer.value).join('\n'),
        });
      }),
    );
};
