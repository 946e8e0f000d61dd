import { type Book, type Priming, primingWords } from '@fettle/book';
import { heading, table, wrapped } from './table.ts';

const WIDTH = 100;
const set = (text: string, indent = ''): string[] => wrapped(text, WIDTH, indent).map((line) => `  ${line}`);

/** Whether the pump primes, for a person. */
export function primingLines(book: Book, priming: Priming): string[] {
  return [
    ...wrapped(primingWords.primingQuestion(book, priming), WIDTH),
    '',
    ...table(
      [
        ['driven by', 'pump', 'lifts dry', '', 'sealed', ''],
        ...priming.drives.map((drive) => {
          const { by, speed, dry, sealed } = primingWords.driveWords(book, drive);
          return [
            by,
            speed,
            dry,
            primingWords.LIFTS[drive.dryVerdict],
            sealed,
            primingWords.LIFTS[drive.sealedVerdict],
          ];
        }),
      ],
      '  ',
    ),
    ...primingWords.primingGrounds(priming).flatMap((ground) => set(ground, '  ')),
    ...heading('What to do'),
    ...primingWords.primingSteps(book, priming).flatMap((step, i) => set(`${i + 1}. ${step}`, '   ')),
    ...heading('Caution'),
    ...primingWords.PRIMING_CAUTIONS.flatMap((one) => set(one)),
    '',
    'Formula and sources: fettle calc dry-lift.',
  ];
}
