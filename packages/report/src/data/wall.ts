import { type Assessed, type Book, type Characteristic, limitsOf, positionAt } from '@fettle/book';
import { placeWords, whenWords } from '../words/entry.ts';
import { limitWords } from '../words/quantity.ts';
import { unitSign } from '../words/unit.ts';
import type { Printing } from './cover-page.ts';
import { unmeasured } from './unmeasured.ts';

const unitWords = ({ kind, unit }: Characteristic): string =>
  kind === 'seen' || unit === undefined ? '' : unitSign(unit);

/** The size the part fitted there is made to, which moves the limits. */
function sizeOf(book: Book, characteristic: Characteristic, place: Readonly<Record<string, string>>) {
  if (characteristic.position === undefined) return undefined;
  const fitted = book.positions.get(positionAt(characteristic.position, place))?.now;
  return fitted && book.parts.get(fitted.part)?.states.find(({ id }) => id === fitted.state)?.size;
}

function limitLine(
  book: Book,
  characteristic: Characteristic,
  place: Readonly<Record<string, string>>,
): string {
  if (characteristic.kind === 'seen')
    return characteristic.wanted === undefined ? '' : `wanted: ${characteristic.wanted}`;
  const size = sizeOf(book, characteristic, place);
  const sets = (['new', 'wear'] as const).flatMap((set) => {
    const limits = limitsOf(characteristic, set, size);
    return limits ? [{ set, words: limitWords(characteristic, limits) }] : [];
  });
  if (sets.length === 0) return 'no limits of its own';
  return sets.map(({ set, words }) => (sets.length === 1 ? words : `${set} ${words}`)).join(', ');
}

/** How it is taken: by the instrument the sheet names, or by eye. */
const withWhat = (characteristic: Characteristic): string =>
  characteristic.kind === 'seen' ? 'by eye' : (characteristic.with ?? '');

/** What is still to be measured, in the order of the screen, with a box to write in for each place. */
export function wallPages(book: Book, judgements: readonly Assessed[], { printedAt }: Printing) {
  const waiting = unmeasured(book, judgements);
  const row = ({ characteristic, places }: (typeof waiting)[number]) => ({
    line: characteristic.line ?? '',
    name: characteristic.name,
    unit: unitWords(characteristic),
    limits: limitLine(book, characteristic, places[0]!),
    with: withWhat(characteristic),
    seen: characteristic.kind === 'seen',
    measurand:
      characteristic.ask_measurand === true
        ? Object.keys(characteristic.read_as ?? {})
            .concat(characteristic.measurand)
            .join(' or ')
            .replaceAll('-', ' ')
        : '',
    axes: characteristic.places.join(' / '),
    boxes: places.map((place) => placeWords(place, characteristic.places)),
  });
  return {
    title: book.opened?.body.title ?? 'A job without a title',
    engine: book.sheet?.title ?? 'no spec sheet here',
    job: book.job,
    printed: whenWords(printedAt),
    boxes: String(waiting.reduce((sum, { places }) => sum + places.length, 0)),
    needed: waiting.filter(({ characteristic }) => characteristic.optional !== true).map(row),
    optional: waiting.filter(({ characteristic }) => characteristic.optional === true).map(row),
  };
}
