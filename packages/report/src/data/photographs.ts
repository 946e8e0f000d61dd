import type { Book } from '@fettle/book';
import { whenWords } from '../words/entry.ts';
import { bareJpeg, isJpeg } from './bare-jpeg.ts';

export interface Photograph {
  readonly caption: string;
  readonly about: string;
  readonly alt: string;
  readonly who: string;
  readonly when: string;
  readonly sha256: string;
  /** Name of the picture for the template; empty where it cannot be shown. */
  readonly file: string;
  readonly missing: string;
}

/** What the typesetter can set; anything else is named and left out. */
const ENDINGS: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/gif': 'gif',
};

const NO_PICTURE = new Uint8Array();

/**
 * The photographs of a book, each with the file it is printed from or why it is not. They are printed without what
 * a camera wrote about them: a book is handed on, and where somebody lives is not part of it.
 *
 * @param photos    bytes by their SHA-256, as far as they are here
 * @param canBeSet  whether the typesetter can read a picture
 */
export function photographPages(
  book: Book,
  photos: ReadonlyMap<string, Uint8Array>,
  canBeSet: (file: string, bytes: Uint8Array) => boolean,
): { pages: Photograph[]; pictures: Map<string, Uint8Array> } {
  const pictures = new Map<string, Uint8Array>();
  const pages = book.photos.map(({ entry, body }) => {
    const given = photos.get(body.sha256);
    const bytes = given && isJpeg(given) ? (bareJpeg(given) ?? NO_PICTURE) : given;
    const ending = ENDINGS[body.media];
    const file = `photo-${body.sha256}.${ending}`;
    const missing =
      bytes === undefined
        ? 'The picture is not here.'
        : ending === undefined
          ? `A picture of the kind ${body.media} cannot be printed.`
          : canBeSet(file, bytes)
            ? ''
            : 'The picture cannot be read.';
    if (missing === '' && bytes) pictures.set(file, bytes);
    return {
      caption: body.caption ?? '',
      about: body.about ?? '',
      alt: body.caption ?? body.about ?? 'A photograph without a caption',
      who: entry.who,
      when: whenWords(entry.at),
      sha256: body.sha256,
      file: missing === '' ? file : '',
      missing,
    };
  });
  return { pages, pictures };
}
