import {
  asFittedNow,
  assessed,
  isQuestion,
  isTagAddress,
  partSought,
  readingsOf,
  spoken,
  spokenEntries,
} from '@fettle/book';
import { CATALOGUE, failed, type Outcome, ok } from '@fettle/core';
import type { Bench } from '../bench.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { judgementJson } from '../words/judgement-json.ts';
import { judgementLines } from '../words/judgement-lines.ts';
import { foundPart } from './tags.ts';

interface Said {
  readonly with?: string;
  readonly unit?: string;
  readonly part?: string;
  readonly confirm?: boolean;
}

export const registerSay: Register = (program, run) => {
  program
    .command('say <job> <words...>')
    .description('readings as one says them at the bench, read back; "no, 2.1238" corrects the last')
    .option('--with <instrument>', 'an instrument declared with "fettle tools"')
    .option('--unit <unit>', 'the unit of numbers said without one')
    .option('--part <part>', 'the part it was read on; what is fitted there when absent')
    .option('--confirm', 'keep it although it is asked about')
    .addHelpText(
      'after',
      `
Examples:
  fettle say linnet "rod two front 2.1228, 2.1227" --unit in --with micrometer
  fettle say linnet "main three rear ninety two point four nine seven six inches" --with micrometer
  fettle say linnet "no, 2.1238"
  fettle say linnet "strike that"`,
    )
    .action((job: string, words: string[], said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? heardAt(bench.value, words.join(' '), said) : bench;
      }),
    );
};

async function heardAt(bench: Bench, text: string, said: Said): Promise<Outcome<Reply>> {
  const book = bench.book();
  // A scanner types what is on the tag where a reading would be said.
  const scanned = partSought(book, text);
  if (scanned.ok) return foundPart(book, scanned.value);
  if (isTagAddress(text)) return scanned;
  const last = book.readings.findLast(({ standing }) => standing === 'counts');
  const heard = spoken(book, text, {
    ...(said.unit !== undefined && { unit: () => said.unit }),
    ...(last && { last }),
  });
  if (!heard.ok) return heard;
  const { value } = heard;
  const made = readingsOf(value);
  const entries = spokenEntries(book, value, text, () => ({
    ...(said.with !== undefined && { instrument: said.with }),
    ...(said.part !== undefined && { part: said.part }),
    ...(said.confirm && { confirmed: true }),
  }));
  if (!entries.ok)
    return failed(
      ...entries.issues.map((issue) =>
        isQuestion(issue) ? { ...issue, message: `${issue.message} Keep it with --confirm.` } : issue,
      ),
    );
  const written = await bench.write(entries.value);
  if (!written.ok) return written;
  const about = new Set([
    ...made.map(({ characteristic }) => characteristic),
    ...(value.is === 'strike' && last ? [last.body.characteristic] : []),
  ]);
  const now = bench.book();
  const touched = [...about].flatMap((id) =>
    assessed(now, asFittedNow(now), CATALOGUE, id).filter(({ place }) =>
      made.length === 0
        ? false
        : made.some((one) => Object.entries(place).every(([axis, at]) => (one.place[axis] ?? at) === at)),
    ),
  );
  return ok({
    json: { said: value.back.split('\n'), entries: written.value, judgements: touched.map(judgementJson) },
    text: [value.back, ...touched.flatMap((judgement) => judgementLines(judgement))].join('\n'),
  });
}
