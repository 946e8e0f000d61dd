import type { Book, TagSize } from '@fettle/book';

type Paper = 'a4' | 'letter';

interface ToPrint {
  readonly book: Book;
  readonly paper: Paper;
  /** ISO 8601. */
  readonly printedAt: string;
  /** IANA name of the clock that is printed. */
  readonly zone?: string;
}

/** Who sets the printed things; the package report, or its stand-in in a test. */
export interface Report {
  /** @param toPrint  `photos` by their SHA-256 */
  buildBookPdf(toPrint: ToPrint & { readonly photos?: ReadonlyMap<string, Uint8Array> }): Promise<Uint8Array>;
  wallSheetPdf(toPrint: ToPrint): Promise<Uint8Array>;
  /** How the engine was left, for the night. */
  morningCardPdf(toPrint: ToPrint): Promise<Uint8Array>;
  /** @param toPrint  `component` is a part; every part decided to be machined when absent */
  slipPdf(toPrint: ToPrint & { readonly component?: string }): Promise<Uint8Array>;
  /** @param toPrint  `page` is where other devices find the page, where they do */
  tagsPdf(
    toPrint: ToPrint & {
      readonly size: TagSize;
      readonly from: number;
      readonly page?: string;
      readonly parts?: readonly string[];
    },
  ): Promise<Uint8Array>;
}
