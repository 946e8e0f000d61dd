import { asFittedNow, assessment, type Book, momentWords, noticesOf } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { cautionPages } from './data/cautions.ts';
import { coverPage, type Printing } from './data/cover-page.ts';
import { coverPages } from './data/covers.ts';
import { decidingPages } from './data/deciding.ts';
import { decisionPages, orderPages, partPages } from './data/decisions.ts';
import { gaugePages, instrumentPages } from './data/instruments.ts';
import { ledgerLines, notePages } from './data/ledger-lines.ts';
import { cardPages, mapPages } from './data/maps.ts';
import { type Photograph, photographPages } from './data/photographs.ts';
import { predictionOf } from './data/prediction.ts';
import { hotIdle, pressurePages } from './data/pressure.ts';
import { readingPlanPage } from './data/reading-plan.ts';
import { recordPages } from './data/record.ts';
import { matchingPages, sizePages, stackPages } from './data/sizes.ts';
import { specSheetPages } from './data/spec-sheet.ts';
import { summaryPage } from './data/summary.ts';
import { torquePages } from './data/torque-log.ts';
import { unmeasuredPages } from './data/unmeasured.ts';
import { type Paper, typeset } from './typeset.ts';
import { pageNumbers } from './words/entry.ts';

/** Everything the build book says, as plain JSON of texts: the template only sets it. */
export function buildBookData(book: Book, printing: Printing, photos: readonly Photograph[] = []) {
  // What cures is told by the time of printing, which the pages say.
  const now = Date.parse(printing.printedAt);
  const assessed = assessment(book, asFittedNow(book), CATALOGUE, now);
  const { judgements, gates, torques, reckoning } = assessed;
  const pages = pageNumbers(book);
  const prediction = predictionOf(book, reckoning);
  return {
    cover: coverPage(book, printing),
    summary: summaryPage(book, judgements, gates, torques),
    hot_idle: hotIdle(book, prediction),
    spec_sheet: specSheetPages(book),
    parts: partPages(book),
    record: recordPages(book, assessed, pages),
    maps: mapPages(book, judgements),
    cards: cardPages(book, judgements),
    covers: coverPages(book, gates),
    covers_as_of: momentWords(now, printing.zone),
    pressure: pressurePages(book, assessed, prediction, now),
    gauge: gaugePages(book),
    torque: torquePages(book, torques),
    decisions: decisionPages(book),
    orders: orderPages(book, judgements),
    deciding: decidingPages(book, assessed, now),
    sizes: sizePages(book, assessed),
    stacks: stackPages(book),
    matching: matchingPages(book),
    instruments: instrumentPages(book),
    cautions: cautionPages(book, judgements, torques),
    notices: noticesOf(book, (id) => `entry ${pages.get(id) ?? id}`),
    notes: notePages(book),
    photos,
    reading_plan: readingPlanPage(book, assessed),
    unmeasured: unmeasuredPages(book, judgements),
    ledger: ledgerLines(book, pages),
  };
}

/** What is printed, on which paper, and when: the time is given so that the same book gives the same bytes. */
export interface ToPrint extends Printing {
  readonly book: Book;
  readonly paper: Paper;
}

/**
 * The build book: everything the ledger says and what the program makes of it, as PDF/A-2b with tags.
 *
 * @param toPrint  `photos` by their SHA-256; those not given are named as not here
 */
export async function buildBookPdf(
  toPrint: ToPrint & { readonly photos?: ReadonlyMap<string, Uint8Array> },
): Promise<Uint8Array> {
  const { book, paper, printedAt, photos = new Map() } = toPrint;
  const canBeSet = (file: string, bytes: Uint8Array): boolean => {
    try {
      typeset('picture.typ', { file }, { paper, printedAt, pictures: new Map([[file, bytes]]) });
      return true;
    } catch {
      return false;
    }
  };
  const { pages, pictures } = photographPages(book, photos, canBeSet);
  return typeset('book.typ', buildBookData(book, toPrint, pages), { paper, printedAt, pictures });
}
