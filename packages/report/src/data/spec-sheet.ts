import { type Book, type Characteristic, sourcesOf } from '@fettle/book';
import { whenWords } from '../words/entry.ts';
import { printedQuantity, rangeWords } from '../words/printed-quantity.ts';
import { citedWords } from '../words/source.ts';
import { lineName } from './line-names.ts';

/** A limit set as the sheet prints it. */
function asPrinted(characteristic: Characteristic, set: 'new' | 'wear'): string {
  const { lower, upper, target } = characteristic.limits?.[set] ?? {};
  const limits = rangeWords(lower, upper);
  return [limits, target === undefined ? '' : `target ${printedQuantity(target)}`]
    .filter((part) => part !== '')
    .join(', ');
}

function sheetLine(book: Book, characteristic: Characteristic) {
  const sets = (['new', 'wear'] as const).filter((set) => characteristic.limits?.[set]);
  const sources = (sets.length > 0 ? sets : (['new'] as const)).flatMap((set) =>
    sourcesOf(characteristic, set).map(({ source }) => citedWords(source)),
  );
  const amendment = book.amended.get(characteristic.id);
  return {
    line: lineName(book, characteristic),
    name: characteristic.name,
    id: characteristic.id,
    new: asPrinted(characteristic, 'new'),
    wear: asPrinted(characteristic, 'wear'),
    other:
      characteristic.kind === 'seen'
        ? `seen; wanted: ${characteristic.wanted ?? 'not said'}`
        : sets.length === 0
          ? (characteristic.no_limits ?? 'no limits')
          : '',
    source: [...new Set(sources.map(({ source }) => source))].join('; '),
    trust: [...new Set(sources.map(({ trust }) => trust))].filter((t) => t !== '').join(', '),
    sizes: (characteristic.sizes ?? [])
      .map(({ name, obtainable }) => `${name}${obtainable ? '' : ' (not to be had)'}`)
      .join(', '),
    notes: [
      ...new Set(
        sets.flatMap((set) => sourcesOf(characteristic, set).flatMap(({ source }) => source?.note ?? [])),
      ),
    ],
    amended: amendment
      ? `Amended by ${amendment.entry.who}, ${whenWords(amendment.entry.at)}: ${amendment.body.why}`
      : '',
  };
}

/** The sheet line by line, in its own groups and order, with where each limit comes from and how far it is trusted. */
export function specSheetPages(book: Book) {
  const groups = new Map<string, ReturnType<typeof sheetLine>[]>();
  for (const characteristic of book.characteristics.values()) {
    const group = characteristic.group ?? '';
    groups.set(group, [...(groups.get(group) ?? []), sheetLine(book, characteristic)]);
  }
  return {
    documents: Object.entries(book.sheet?.documents ?? {}).map(([id, { title, edition }]) => ({
      id,
      title,
      edition: edition ?? '',
    })),
    groups: [...groups].map(([name, lines]) => ({ name, lines })),
    axes: Object.entries(book.sheet?.axes ?? {}).map(([name, values]) => ({
      name,
      values: values.join(', '),
    })),
  };
}
