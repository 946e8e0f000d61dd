import { type Book, type FilledCircuit, gaugePressure, pressureStair, pressureUnit } from '@fettle/book';
import { expanded, inUnit, linear, SOURCES } from '@fettle/core';
import type { Condition } from './oil-lines.ts';
import { operandWords, shown } from './quantity.ts';
import { heading, table, wrapped } from './table.ts';

const FORMULA =
  'share of i = Σ over sets S of other repairs of |S|! (n − |S| − 1)!/n! · [p(S and i made) − p(S made)]';

/** One tread with all it comes from. */
interface TreadWorking {
  readonly repair: string;
  readonly share: number;
  readonly doubt: number;
  /** Made first, with nothing else; made last, after all the rest [Pa]. */
  readonly first: number;
  readonly last: number;
  readonly inputs: readonly {
    readonly parameter: string;
    readonly characteristic: string;
    readonly measured: string;
    readonly as_new: string;
    readonly entries: readonly string[];
  }[];
}

export interface StairWorking {
  readonly formula: string;
  readonly source: string;
  readonly orders: string;
  readonly as_new: number;
  readonly now: number;
  readonly treads: readonly TreadWorking[];
}

/**
 * Where the treads of the pressure stair come from.
 *
 * @throws RangeError  when the network finds no balance
 */
export function stairWorking(circuit: FilledCircuit, condition: Condition): StairWorking {
  const stair = pressureStair(circuit, condition);
  const repairs = stair.treads.map(({ repair }) => repair);
  const withMade = (made: readonly string[]): number =>
    gaugePressure(circuit, condition, { as: 'repaired', repairs: made }).value;
  const all = withMade(repairs);
  const { title, edition } = SOURCES['shapley-1953']!;
  return {
    formula: FORMULA,
    source: [title, edition].filter(Boolean).join(', '),
    orders: stair.exact
      ? `every order of ${repairs.length} repairs, exactly`
      : `${stair.orders} orders drawn with a fixed seed`,
    as_new: stair.asNew,
    now: stair.now,
    treads: stair.treads
      .map((tread) => ({
        repair: tread.repair,
        share: tread.share.value,
        doubt: expanded(tread.share).U,
        first: tread.with - stair.now,
        last: all - withMade(repairs.filter((one) => one !== tread.repair)),
        inputs: circuit.parameters
          .filter(({ repair }) => repair === tread.repair)
          .map(({ name, characteristic, factor, nominal, measured, entries, trust }) => ({
            parameter: name,
            characteristic: characteristic.id,
            measured: measured
              ? operandWords(characteristic, {
                  kind: 'value',
                  q: linear([{ factor: 1 / factor, of: measured }]),
                })
              : 'not measured, taken as new',
            as_new: `${shown(characteristic, nominal / factor)} (${trust})`,
            entries,
          })),
      }))
      .sort((a, b) => b.share - a.share),
  };
}

export function stairWorkingLines(book: Book, condition: Condition, working: StairWorking): string[] {
  const unit = pressureUnit(book);
  const said = (pascals: number): string => inUnit(pascals, unit).toFixed(unit === 'bar' ? 3 : 2);
  return [
    `The pressure stair at ${condition.words} and ${condition.speedWords}: from ${said(working.as_new)} as new to ${said(working.now)} ${unit}`,
    '',
    ...wrapped(`Formula: ${working.formula}. p is the gauge pressure of the solved circuit.`, 104, '  '),
    ...wrapped(`Source: ${working.source}. Gone through: ${working.orders}.`, 104, '  '),
    ...working.treads.flatMap((tread) => [
      ...heading(
        `${tread.repair}: ${said(tread.share)} ±${said(tread.doubt)} ${unit}; made first it brings ${said(tread.first)}, made last ${said(tread.last)}`,
      ),
      ...table(
        tread.inputs.map(({ parameter, characteristic, measured, as_new, entries }) => [
          parameter,
          characteristic,
          measured,
          `as new ${as_new}`,
          entries.length === 0
            ? 'no entries'
            : entries.length === 1
              ? `entry ${entries[0]}`
              : `${entries.length} entries, the last ${entries.at(-1)}`,
        ]),
        '  ',
      ),
    ]),
    '',
    ...wrapped(
      'Made first and made last differ where the oil that one leak no longer takes feeds the others; the share lies between, averaged over every order. Where the stair is printed with fewer figures its shares are rounded so that they add up. The circuit’s own constants are assumed.',
      104,
    ),
  ];
}
