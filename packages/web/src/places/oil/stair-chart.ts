import { type Book, type Running, roundedToSum, type Stair, wantedPressure } from '@fettle/book';
import { expanded, inUnit, printQuantity } from '@fettle/core';
import type { PressureStair } from '@fettle/draw';
import { pressureUnit } from '../../words/pressure.ts';

/** A loss with its sign; what does better than new, with the other. */
function treadText(lifted: boolean, share: string, band: string): string {
  if (Number(share) === 0) return lifted ? 'lifted' : share;
  return share.startsWith('-') ? `+${share.slice(1)}${band}` : `−${share}${band}`;
}

/**
 * The stair as it is drawn: treads in the order of what they carried before any was lifted, so that none moves away
 * from under a finger, and rounded so that the printed figures add up.
 */
export function stairChart(book: Book, running: Running, whole: Stair, now: Stair): PressureStair {
  const unit = pressureUnit(book);
  const decimals = unit === 'bar' ? 2 : 1;
  const say = (pascals: number): string => inUnit(pascals, unit).toFixed(decimals);
  const figure = (name: string, pascals: number) => ({
    name,
    value: inUnit(pascals, unit),
    text: `${say(pascals)} ${unit}`,
  });
  const lifted = now.treads.filter((tread) => tread.lifted).length;
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
      const band = now.doubted && !nothing && U > 0 ? ` ±${U.toFixed(decimals)}` : '';
      return {
        id: tread.repair,
        name: tread.measured ? tread.repair : `${tread.repair}, not measured`,
        share: inUnit(tread.share.value, unit),
        text: treadText(tread.lifted, nothing ? (0).toFixed(decimals) : printed, band),
        lifted: tread.lifted,
        carried: inUnit(whole.treads[i]!.share.value, unit),
        ...(!tread.lifted && {
          alone: {
            value: inUnit(tread.with, unit),
            text: `${lifted > 0 ? 'this too' : 'alone'} ${say(tread.with)}`,
          },
        }),
      };
    })
    .sort((a, b) => b.carried - a.carried);
  return {
    asNew: figure('as new', now.asNew),
    now: figure(lifted > 0 ? `${lifted} lifted` : 'as measured', now.now),
    ...(least !== undefined && {
      required: { name: 'wanted', value: inUnit(least, unit), text: printQuantity(least, unit, 0) },
    }),
    treads,
    tappable: true,
  };
}
