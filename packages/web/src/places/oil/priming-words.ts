import { type Book, type Priming, STOP_AFTER_SECONDS } from '@fettle/book';
import { printQuantity } from '@fettle/core';

export const rpm = (speed: number): string => printQuantity(speed, 'rpm', 0);

/** Which way to turn it, or how to find out. */
function turning(book: Book): string {
  const turns = book.sheet?.oil?.priming?.turns;
  return turns === undefined
    ? 'The sheet does not say which way the pump turns: turn the engine over by hand the way it runs, watch the pump’s drive, and turn the drill the same way.'
    : `The pump turns ${turns}: turn the drill the same way.`;
}

/** What to do, in the order of doing it. */
export function primingSteps(book: Book, { drives }: Priming): string[] {
  const dry = drives.every(({ dryVerdict }) => dryVerdict === 'in');
  const fills = drives.map(({ by, fill }) => `${Math.max(1, Math.ceil(fill))} s on the ${by}`).join(', ');
  const drill = drives.find(({ by }) => by === 'drill');
  return [
    dry
      ? 'Dry it would lift; fill it with oil all the same: a wet start costs nothing.'
      : 'Pack the pump’s gears and faces with petroleum jelly, never with grease: jelly melts and goes with the oil, grease stays in the passages. Or fill pump and pickup with oil just before the cover goes on, and do not let it stand.',
    'Fill the filter and, where it can be reached, the gallery with oil.',
    `Plugs out, ignition and fuel off. ${
      drill
        ? `Drive the pump by a drill at about ${rpm(drill.speed)} of the pump${book.sheet?.oil?.priming?.drill === undefined ? ' (a guess for a hand drill; the sheet says nothing)' : ''}, else crank on the starter in short turns.`
        : 'Crank on the starter in short turns.'
    } ${turning(book)}`,
    `Pressure should show within about ${fills}, once oil is at the pump: so long the passages known here take to fill, and what is not on the sheet takes longer.`,
    `STOP after ${STOP_AFTER_SECONDS} s without pressure (common practice, no source): prime again, then look for a leak in the suction or a pump on dry gears. Do not start the engine to find out.`,
  ];
}

export const PRIMING_CAUTIONS = [
  'A drill can snatch: hold it by its side grip, no gloves, no loose sleeves; keep clear of what turns with the pump.',
  'Fuel and ignition off while the engine is turned; fingers out of the engine. The maker’s own priming procedure outranks this.',
];
