import type { Book, LimitSource } from '@fettle/book';

export interface SourceWords {
  readonly source: string;
  readonly trust: string;
}

/** Document, edition and page, and how far it is trusted. */
export function sourceWords(book: Book, source: LimitSource | undefined): SourceWords {
  if (!source) return { source: 'no source stated', trust: '' };
  const document = book.sheet?.documents[source.document];
  const words = [
    document?.title ?? source.document,
    document?.edition,
    source.page === undefined ? undefined : /^\d/.test(source.page) ? `p. ${source.page}` : source.page,
    // What follows it goes on in the same sentence.
    source.note?.replace(/\.$/, ''),
  ];
  return { source: words.filter((word) => word !== undefined).join(', '), trust: source.trust };
}

/** The same with the document by its short name, where the documents are listed above; its note stands elsewhere. */
export function citedWords(source: LimitSource | undefined): SourceWords {
  if (!source) return { source: 'no source stated', trust: '' };
  const page =
    source.page === undefined ? undefined : /^\d/.test(source.page) ? `p. ${source.page}` : source.page;
  return {
    source: [source.document, page].filter((word) => word !== undefined).join(', '),
    trust: source.trust,
  };
}
