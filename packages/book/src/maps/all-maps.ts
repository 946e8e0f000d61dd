import type { Assessed } from '../assess/assessment.ts';
import type { Catalogue } from '../assess/relations.ts';
import type { Book } from '../fold/book.ts';
import { type CardColumn, type JobCard, jobCards } from './job-cards.ts';
import { type JobFace, jobFaces } from './job-faces.ts';
import { figureOf, type JobMap, jobMaps } from './job-maps.ts';
import { type JobSpring, jobSprings } from './job-springs.ts';

/** Where each part is worn, everything in one place only. */
export interface AllMaps {
  readonly maps: readonly JobMap[];
  readonly faces: readonly JobFace[];
  readonly springs: readonly JobSpring[];
  readonly cards: readonly JobCard[];
}

/** What is probed over a face stands on its face, and neither unrolled nor on a card. */
export function allMaps(book: Book, judgements: readonly Assessed[], catalogue: Catalogue): AllMaps {
  const faces = jobFaces(book, judgements, catalogue);
  const probed = new Set(faces.map(({ characteristic }) => characteristic.id));
  return {
    maps: jobMaps(book, judgements).filter(({ characteristic }) => !probed.has(characteristic.id)),
    faces,
    springs: jobSprings(book, judgements),
    cards: withColumns(jobCards(book, judgements), ({ characteristic }) => !probed.has(characteristic.id)),
  };
}

/** Only what of it is measured. */
export const measuredOf = ({ maps, faces, springs, cards }: AllMaps): AllMaps => ({
  maps: maps.filter(({ measured }) => measured > 0),
  faces: faces.filter(({ measured }) => measured > 0),
  springs: springs.filter((spring) =>
    readingsOf(spring).some(({ cells }) => cells.some((cell) => figureOf(cell) !== undefined)),
  ),
  cards: withColumns(cards, ({ cells }) => cells.some((cell) => cell?.operand)),
});

/** Only what shows this characteristic, or what is judged by it. */
export const mapsShowing = ({ maps, faces, springs, cards }: AllMaps, id: string): AllMaps => ({
  maps: maps.filter(({ characteristic }) => characteristic.id === id),
  faces: faces.filter(({ characteristic, judged }) =>
    [characteristic.id, judged?.characteristic.id].includes(id),
  ),
  springs: springs.filter((spring) =>
    readingsOf(spring).some(({ characteristic }) => characteristic.id === id),
  ),
  cards: withColumns(cards, ({ characteristic }) => characteristic.id === id),
});

const readingsOf = ({ loads, free, solid }: JobSpring) => [
  ...loads,
  ...(free ? [free] : []),
  ...(solid ? [solid] : []),
];

const withColumns = (cards: readonly JobCard[], isKept: (column: CardColumn) => boolean): JobCard[] =>
  cards
    .map((card) => ({ ...card, columns: card.columns.filter(isKept) }))
    .filter(({ columns }) => columns.length > 0);
