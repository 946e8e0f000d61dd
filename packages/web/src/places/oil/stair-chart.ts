import {
  type Book,
  type FilledCircuit,
  pressureUnit,
  type Running,
  roundedToSum,
  type Stair,
  wantedPressure,
} from '@fettle/book';
import { expanded, inUnit, printQuantity, type Uncertain } from '@fettle/core';
import type { PressureStair } from '@fettle/draw';
import { shareRepaired } from './clearances.ts';

/** A loss with its sign; what does better than new, with the other. */
function treadText(lifted: boolean, share: string, band: string): string {
  if (Number(share) === 0) return lifted ? 'lifted' : share;
  return share.startsWith('-') ? `+${share.slice(1)}${band}` : `−${share}${band}`;
}

/** What is tried in thought, and what the next repair would bring once its doubt is known. */
interface InThought {
  readonly circuit: FilledCircuit;
  readonly values: Readonly<Record<string, number>>;
  readonly alone?: ReadonlyMap<string, Uncertain> | undefined;
}

/** What a tread says of its parts. */
function treadName(repair: string, measured: boolean, thought: InThought | undefined): string {
  const share = thought && shareRepaired(thought.circuit, repair, thought.values);
  if (share !== undefined)
    return `${repair}, tried${share > 0 && share < 1 ? `: ${Math.round(share * 100)} % repaired` : ''}`;
  return measured ? repair : `${repair}, not measured`;
}

/**
 * The stair as it is drawn: treads in the order of what they carried before any was lifted, so that none moves away
 * from under a finger, and rounded so that the printed figures add up.
 */
export function stairChart(
  book: Book,
  running: Running,
  whole: Stair,
  now: Stair,
  thought?: InThought,
): PressureStair {
  const unit = pressureUnit(book);
  const decimals = unit === 'bar' ? 2 : 1;
  const say = (pascals: number): string => inUnit(pascals, unit).toFixed(decimals);
  const figure = (name: string, pascals: number) => ({
    name,
    value: inUnit(pascals, unit),
    text: `${say(pascals)} ${unit}`,
  });
  const lifted = now.treads.filter((tread) => tread.lifted).length;
  const tried = Object.keys(thought?.values ?? {}).length > 0;
  const least = wantedPressure(book.sheet, running)?.lower;
  const rounded = roundedToSum(
    now.treads.map(({ share }) => inUnit(share.value, unit)),
    Number(say(now.asNew)) - Number(say(now.now)),
    10 ** -decimals,
  );
  const treads = now.treads
    .map((tread, i) => {
      const U = inUnit(expanded(tread.share).U, unit);
      const printed = rounded[i]!.toFixed(decimals);
      const nothing = Number(printed) === 0;
      const next = thought?.alone?.get(tread.repair);
      const nextU = next ? inUnit(expanded(next).U, unit) : 0;
      const nextBand = nextU > 0 ? ` ±${nextU.toFixed(decimals)}` : '';
      const band = now.doubted && !nothing && U > 0 ? ` ±${U.toFixed(decimals)}` : '';
      return {
        id: tread.repair,
        name: treadName(tread.repair, tread.measured, thought),
        share: inUnit(tread.share.value, unit),
        text: treadText(tread.lifted, nothing ? (0).toFixed(decimals) : printed, band),
        lifted: tread.lifted,
        carried: inUnit(whole.treads[i]!.share.value, unit),
        ...(!tread.lifted && {
          alone: {
            value: inUnit(tread.with, unit),
            text: `${lifted > 0 || tried ? 'this too' : 'alone'} ${say(tread.with)}${nextBand}`,
          },
        }),
      };
    })
    .sort((a, b) => b.carried - a.carried);
  return {
    asNew: figure('as new', now.asNew),
    now: figure(tried ? 'in thought' : lifted > 0 ? `${lifted} lifted` : 'as measured', now.now),
    ...(least !== undefined && {
      required: { name: 'wanted', value: inUnit(least, unit), text: printQuantity(least, unit, 0) },
    }),
    treads,
    tappable: true,
  };
}
