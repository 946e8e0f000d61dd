import type { Book } from '../fold/book.ts';
import type { MorningCard } from '../keeping/morning.ts';
import {
  astrayWords,
  CLEANING_CAUTION,
  type Clock,
  jointWords,
  openingWords,
  uncleanWords,
} from './keeping.ts';

/** One thing that was left, and what it is about: a joint, an opening, a part, a cover. */
export interface MorningLine {
  readonly words: string;
  readonly about?: string;
}

/** Where what stands under a heading is settled. */
type Settles = 'joints' | 'openings' | 'marks' | 'cleaning' | 'readings' | 'covers';

export interface MorningSection {
  readonly heading: string;
  readonly settles: Settles;
  readonly lines: readonly MorningLine[];
  readonly caution?: string;
}

/** Said where there is nothing to say. */
export const QUIET = 'Nothing was left loose, blocked, away from home or in doubt.';

/**
 * The card's headings with their lines; a heading with nothing under it is left out.
 *
 * @param clock  by which times are said
 */
export function morningSections(book: Book, card: MorningCard, clock: Clock = {}): readonly MorningSection[] {
  const sections: readonly MorningSection[] = [
    {
      heading: 'Joints left open',
      settles: 'joints',
      lines: card.joints.map((one) => ({ words: jointWords(one, clock), about: one.joint })),
    },
    {
      heading: 'Openings',
      settles: 'openings',
      lines: card.openings.map((one) => ({ words: openingWords(one), about: one.opening })),
    },
    {
      heading: 'Parts that stand wrong',
      settles: 'marks',
      lines: card.astray.map((one) => ({ words: astrayWords(book, one), about: one.part })),
    },
    {
      heading: 'Not proven clean',
      settles: 'cleaning',
      lines: card.unclean.map((one) => ({ words: uncleanWords(one), about: one.part.id })),
      caution: CLEANING_CAUTION,
    },
    {
      heading: 'To be taken again',
      settles: 'readings',
      lines:
        card.reopened === 0
          ? []
          : [
              {
                words: `${card.reopened} ${card.reopened === 1 ? 'reading or torque' : 'readings and torques'}, after a check that failed`,
              },
            ],
    },
    {
      heading: 'May be closed',
      settles: 'covers',
      lines: card.closable.map(({ cover }) => ({
        words: `${cover.name}, ${cover.reopen_hours} h to reopen`,
        about: cover.id,
      })),
    },
  ];
  return sections.filter(({ lines }) => lines.length > 0);
}

/** `how it was left, as of Tue 6 Jan 2026, 21:40`. */
export const asOfWords = (moment: string): string => `How it was left, as of ${moment}`;
