import { asFittedNow, assessment, jobCards, jobMaps, mapWords } from '@fettle/book';
import { CATALOGUE, failed, type Outcome, ok } from '@fettle/core';
import { issue } from '../entered.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { blockLines } from '../words/block-lines.ts';

export const registerMap: Register = (program, run) => {
  program
    .command('map <job> [characteristic]')
    .description('bores and journals unrolled, lobes, valves and springs on cards: where it is worn worst')
    .addHelpText(
      'after',
      `
Without a characteristic: everything of which something is measured.

Examples:
  fettle map linnet
  fettle map linnet bore.diameter
  fettle map linnet pump.cover-groove`,
    )
    .action((job: string, characteristic: string | undefined) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const { judgements } = assessment(book, asFittedNow(book), CATALOGUE);
        const maps = jobMaps(book, judgements).filter((map) =>
          characteristic === undefined ? map.measured > 0 : map.characteristic.id === characteristic,
        );
        const cards = jobCards(book, judgements)
          .map((card) => ({
            ...card,
            columns: card.columns.filter(({ characteristic: { id }, cells }) =>
              characteristic === undefined ? cells.some((cell) => cell?.operand) : id === characteristic,
            ),
          }))
          .filter(({ columns }) => columns.length > 0);
        if (characteristic !== undefined && maps.length + cards.length === 0)
          return failed(
            issue(
              'map/none',
              'characteristic',
              characteristic,
              'one that is read over one, two or three axes',
              `"${characteristic}" is not on this sheet, or is read in one place only. "fettle map ${job}" shows what there is.`,
            ),
          );
        const blocks = [
          ...maps.map((map) => mapWords.mapBlock(map)),
          ...cards.map((card) => mapWords.cardBlock(card)),
        ];
        return ok({
          json: { job: book.job, maps: blocks },
          text:
            blocks.length === 0
              ? mapWords.NO_MAPS
              : blocks.map((one) => blockLines(one).join('\n')).join('\n\n'),
        });
      }),
    );
};
