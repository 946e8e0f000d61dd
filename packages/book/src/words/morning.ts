import type { Book } from '../fold/book.ts';
import type { MorningCard } from '../keeping/morning.ts';
import { astrayWords, CLEANING_CAUTION, jointWords, openingWords, uncleanWords } from './keeping.ts';

/** The card's headings with their lines; a heading with nothing under it is left out. */
export function morningSections(
  book: Book,
  card: MorningCard,
): { readonly heading: string; readonly lines: readonly string[] }[] {
  return [
    { heading: 'Joints left open', lines: card.joints.map(jointWords) },
    { heading: 'Openings', lines: card.openings.map(openingWords) },
    { heading: 'Parts that stand wrong', lines: card.astray.map((one) => astrayWords(book, one)) },
    {
      heading: 'Not proven clean',
      lines: card.unclean.length > 0 ? [...card.unclean.map(uncleanWords), CLEANING_CAUTION] : [],
    },
    {
      heading: 'To be taken again',
      lines:
        card.reopened === 0
          ? []
          : [
              `${card.reopened} ${card.reopened === 1 ? 'reading or torque' : 'readings and torques'}, after a check that failed`,
            ],
    },
    {
      heading: 'May be closed',
      lines: card.closable.map(({ cover }) => `${cover.name}, ${cover.reopen_hours} h to reopen`),
    },
  ].filter(({ lines }) => lines.length > 0);
}
