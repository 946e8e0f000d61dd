import { allMaps, asFittedNow, assessment, mapsShowing, mapWords, measuredOf } from '@fettle/book';
import { CATALOGUE, failed, issue, type Outcome, ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { blockLines } from '../words/block-lines.ts';

export const registerMap: Register = (program, run) => {
  program
    .command('map <job> [characteristic]')
    .description(
      'bores and journals unrolled, faces, lobes, valves and springs on cards: where it is worn worst',
    )
    .addHelpText(
      'after',
      `
Without a characteristic: everything of which something is measured.

Examples:
  fettle map linnet
  fettle map linnet bore.diameter
  fettle map linnet pump.cover-groove
  fettle map linnet head.flatness`,
    )
    .action((job: string, characteristic: string | undefined) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const { judgements } = assessment(book, asFittedNow(book), CATALOGUE);
        const all = allMaps(book, judgements, CATALOGUE);
        const { maps, faces, springs, cards } =
          characteristic === undefined ? measuredOf(all) : mapsShowing(all, characteristic);
        if (characteristic !== undefined && maps.length + cards.length + faces.length + springs.length === 0)
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
          ...faces.map((face) => mapWords.faceBlock(face)),
          ...springs.map((spring) => mapWords.springBlock(spring)),
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
