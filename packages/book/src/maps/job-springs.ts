import { parseQuantity } from '@fettle/core';
import type { Assessed } from '../assess/assessment.ts';
import type { Book } from '../fold/book.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { cellsOf, type PlaceCell } from './job-maps.ts';

/** One thing read of all springs of a kind. */
export interface SpringReading {
  readonly characteristic: Characteristic;
  /** Length at which the load is taken [m]; of a length of the spring itself, none. */
  readonly at?: number;
  readonly cells: readonly PlaceCell[];
}

/** Springs alike: their loads by length, and their own lengths. */
export interface JobSpring {
  /** What they are called where they are fitted. */
  readonly name: string;
  /** By falling length. */
  readonly loads: readonly SpringReading[];
  readonly free?: SpringReading;
  readonly solid?: SpringReading;
}

/** Every kind of spring of which the sheet says at which lengths its loads are taken. */
export function jobSprings(book: Book, judgements: readonly Assessed[]): JobSpring[] {
  const kinds = new Map<string, SpringReading[]>();
  for (const characteristic of book.characteristics.values()) {
    const { spring_length: length, position = '' } = characteristic;
    if (length === undefined) continue;
    const at = parseQuantity(length, 'length');
    const read: SpringReading = {
      characteristic,
      ...(at.ok && { at: at.value.value }),
      cells: [...cellsOf(book, characteristic, judgements).values()],
    };
    kinds.set(position, [...(kinds.get(position) ?? []), read]);
  }
  return [...kinds].flatMap(([position, all]) => {
    const loads = all.filter(({ at }) => at !== undefined).sort((a, b) => b.at! - a.at!);
    const own = (word: string) => all.find(({ characteristic }) => characteristic.spring_length === word);
    const [free, solid] = [own('free'), own('solid')];
    const name = book.sheet?.positions.find(({ id }) => id === position)?.name.replace(/\s*\{[^}]*\}/g, '');
    if (loads.length === 0) return [];
    return [
      { name: name ?? loads[0]!.characteristic.name, loads, ...(free && { free }), ...(solid && { solid }) },
    ];
  });
}
