import {
  type Assessed,
  allMaps,
  type Block,
  type Book,
  type JobMap,
  mapPictures,
  mapWords,
  measuredOf,
} from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { faceMapSvg, grooveRingSvg, springLineSvg, unrolledBoresSvg } from '@fettle/draw';
import { printableText } from '../printable.ts';
import { shown } from '../words/quantity.ts';
import { unitSign } from '../words/unit.ts';

/** Two stand beside each other where there is one strip. */
const HALF_WIDTH = 236;

/** Width of the text on the narrower of the two papers [pt]. */
export const TEXT_WIDTH = 493;

const SPRING_WIDTH = 380;

const sheetUnit: mapWords.UnitOf = ({ unit, kind }) => (kind === 'seen' ? undefined : unit);

/** A picture's texts, each as the typesetter can print it. */
const printable = <T>(value: T): T => {
  if (typeof value === 'string') return printableText(value) as T;
  if (Array.isArray(value)) return value.map(printable) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, printable(inner)])) as T;
};

const paper = (title: string, desc: string, width: number) =>
  ({ title: printableText(title), desc: printableText(desc), width, profile: 'paper', paper: true }) as const;

/** A characteristic read over two or three axes, part by part: heights or ends down, directions across. */
function mapPage(map: JobMap) {
  const { characteristic, strip, row, column, meant, strips } = map;
  const { unit } = characteristic;
  const said =
    meant === undefined
      ? ''
      : meant === 0
        ? ' The darker, the more of it.'
        : ` Tinted by how far it is from ${shown(characteristic, meant)}, as new.`;
  const title = mapWords.mapTitle(map);
  const alt = `${title}: what was read at each ${row} and ${column}${strip === undefined ? '' : ` of every ${strip}`}.`;
  return {
    title,
    half: strip === undefined,
    words: `${strip === undefined ? 'By' : `Each ${strip} by`} ${row} and ${column}${unit === undefined ? '' : `, ${unitSign(unit)}`}; the worst place is framed.${said}`,
    alt,
    svg: unrolledBoresSvg(
      printable(mapPictures.unrolledPicture(map, sheetUnit, 'worst')),
      paper(title, alt, strip === undefined ? HALF_WIDTH : TEXT_WIDTH),
    ),
    lines: strips.flatMap((one) => {
      const words = mapWords.stripWords(map, one);
      return words === '' ? [] : [`${strip === undefined ? '' : `${strip} ${one.value}: `}${words}.`];
    }),
    notes: mapWords.mapNotes(map),
  };
}

/** Every characteristic of two or three axes, unrolled as it was drawn up: sizes, and what was worked out from them. */
export const mapPages = (book: Book, judgements: readonly Assessed[]) =>
  allMaps(book, judgements, CATALOGUE)
    .maps.filter(({ valued }) => valued > 0)
    .map(mapPage);

export interface CardPicture {
  /** Over it, where a card has several. */
  readonly name: string;
  readonly svg: string;
  readonly alt: string;
  readonly width: number;
  readonly words: readonly string[];
}

/** Pictures side by side where there is room, then words, then a table. */
const card = ({ title, lines, table, notes }: Block, pictures: readonly CardPicture[] = []) => ({
  title,
  pictures,
  lines,
  head: table?.head ?? [],
  rows: table?.rows ?? [],
  notes,
});

/** Faces, grooves, springs, and what is read once at each of many like things, as far as anything of it is read. */
export function cardPages(book: Book, judgements: readonly Assessed[]) {
  const all = measuredOf(allMaps(book, judgements, CATALOGUE));
  const faces = all.faces.map((face) => {
    const title = mapWords.faceTitle(face);
    const alt = `${title}: every spot in its place, the lower the darker.`;
    const svg = faceMapSvg(
      printable(mapPictures.facePicture(face, sheetUnit)),
      paper(title, alt, TEXT_WIDTH),
    );
    return card({ title, lines: mapWords.faceLines(face), notes: mapWords.faceNotes(face) }, [
      { name: '', svg, alt, width: TEXT_WIDTH, words: [] },
    ]);
  });
  const springs = all.springs.map((spring) => {
    const title = mapWords.springTitle(spring);
    const alt = `${title}: what was read against the limits.`;
    const svg = springLineSvg(
      printable(mapPictures.springPicture(spring, sheetUnit)),
      paper(title, alt, SPRING_WIDTH),
    );
    return card(mapWords.springBlock(spring), [{ name: '', svg, alt, width: SPRING_WIDTH, words: [] }]);
  });
  const cards = all.cards.map((one) => {
    const rings = one.columns.flatMap((column): CardPicture[] => {
      const ring = mapPictures.ringPicture(column, one.axis, sheetUnit);
      if (!ring) return [];
      const { name } = column.characteristic;
      const alt = `${name}: how deep at each ${one.axis}, the farther out the deeper.`;
      const svg = grooveRingSvg(printable(ring), paper(name, alt, HALF_WIDTH));
      return [{ name, svg, alt, width: HALF_WIDTH, words: mapWords.ringLines(column) }];
    });
    return card(mapWords.cardBlock(one), rings);
  });
  return [...faces, ...springs, ...cards];
}
