import { type Issue, parseQuantity } from '@fettle/core';
import { standardUncertaintyOf } from '../assess/instrument.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import type { ReadingOnRecord, Written } from './book.ts';

/** One id is one physical thing; entered twice, readings of the second entering would belong to nothing. */
export function twiceEntered(entered: readonly Written<'part-entered'>[]): Issue[] {
  const first = new Map<string, string>();
  const problems: Issue[] = [];
  for (const { entry, body } of entered) {
    if (!first.has(body.part)) first.set(body.part, entry.id);
    else
      problems.push({
        code: 'part/entered-twice',
        at: entry.id,
        got: `${body.part} again, by ${entry.who}`,
        wanted: 'an id of its own for each part',
        message: `The part ${body.part} was entered before (${first.get(body.part)}), and that entry counts. Strike one of the two; if they are two parts, enter the second under another id.`,
      });
  }
  return problems;
}

/** Readings that came from outside and cannot be read: they are kept, and what is wrong with them is said. */
export function unreadableReadings(
  readings: readonly ReadingOnRecord[],
  characteristics: ReadonlyMap<string, Characteristic>,
  instruments: ReadonlyMap<string, Written<'instrument-declared'>>,
): Issue[] {
  return readings.flatMap(({ entry, body, standing }) => {
    const characteristic = characteristics.get(body.characteristic);
    const kind = characteristic?.kind;
    const name = characteristic?.name ?? body.characteristic;
    const instrument = instruments.get(body.instrument);
    if (standing !== 'counts' || kind === undefined || !instrument) return [];
    const wrong = (got: string, wanted: string, why: string): Issue => ({
      code: 'reading/unreadable',
      at: entry.id,
      got,
      wanted,
      message: `A reading of ${name} is kept but cannot be judged: ${why} Strike it and read again.`,
    });
    if (kind === 'seen') return [wrong('a reading', 'what was seen', `${name} is looked at, not measured.`)];
    const said = [body.value, body.goes, body.stops].filter((text) => text !== undefined);
    for (const text of said) {
      const read = parseQuantity(text, kind);
      if (!read.ok) return [wrong(text, read.issues[0]!.wanted, read.issues[0]!.message)];
      if (standardUncertaintyOf(instrument, kind, read.value.value) === undefined)
        return [
          wrong(
            `${instrument.body.name}, ± ${instrument.body.uncertainty.expanded}`,
            `an instrument for ${kind}`,
            `the uncertainty of ${instrument.body.name} is none of a ${kind}.`,
          ),
        ];
    }
    return [];
  });
}
