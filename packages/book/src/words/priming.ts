import { expanded, inUnit, printQuantity, type Uncertain } from '@fettle/core';
import type { Answer } from '../assess/verdict.ts';
import type { Book } from '../fold/book.ts';
import type { Priming, PrimingDrive } from '../oil/priming.ts';
import { STOP_AFTER_SECONDS } from '../oil/start-up.ts';

/** Whether a drive lifts the oil, in words that stand beside its height. */
export const LIFTS: Readonly<Record<Answer, string>> = {
  in: 'lifts it',
  out: 'DOES NOT LIFT IT',
  'cannot-tell': 'cannot tell',
};

export const PRIMING_CAUTIONS: readonly string[] = [
  'A drill can snatch: hold it by its side grip, no gloves, no loose sleeves; keep clear of what turns with the pump.',
  'Fuel and ignition off while the engine is turned; fingers out of the engine. The maker’s own priming procedure outranks this.',
];

const rpm = (speed: number): string => printQuantity(speed, 'rpm', 0);

/** The unit of length the sheet gives the lift in. */
const lengthUnit = (book: Book): string => /[a-z]+$/i.exec(book.sheet?.oil?.priming?.lift ?? '')?.[0] ?? 'mm';

function spread(q: Uncertain, unit: string, decimals: number): string {
  const U = inUnit(expanded(q).U, unit);
  return `${inUnit(q.value, unit).toFixed(decimals)}${U > 0 ? ` ±${U.toFixed(decimals)}` : ''} ${unit}`;
}

/** What is asked of the pump, and by which gaps it is answered. */
export function primingQuestion(book: Book, { lift, temperature, gaps }: Priming): string {
  const unit = lengthUnit(book);
  const gap = ({ name, value, measured }: Priming['gaps'][number]): string =>
    `${name} ${spread(value, unit, unit === 'in' ? 4 : 3)}${measured ? '' : ' (NOT MEASURED, taken as new)'}`;
  return `Does the pump lift oil ${printQuantity(lift, unit, 1)} to itself? At ${printQuantity(temperature, 'degC', 0)}; ${gaps.map(gap).join(', ')}.`;
}

/** One way to turn the pump: how fast, and how high it lifts with gaps dry and sealed. */
export interface DriveWords {
  readonly by: PrimingDrive['by'];
  readonly speed: string;
  readonly dry: string;
  readonly sealed: string;
}

export function driveWords(book: Book, { by, speed, dry, sealed }: PrimingDrive): DriveWords {
  const unit = lengthUnit(book);
  return { by, speed: rpm(speed), dry: spread(dry, unit, 2), sealed: spread(sealed, unit, 0) };
}

/** A speed that goes by a model of air in slots: to two figures of its doubt, or two of its own where it has none. */
function roundSpeed(q: Uncertain): string {
  const [value, U] = [inUnit(q.value, 'rpm'), inUnit(expanded(q).U, 'rpm')];
  const step = 10 ** (Math.floor(Math.log10(U > 0 ? U : value)) - 1);
  const whole = (n: number): string => (Math.round(n / step) * step).toFixed(0);
  return `${whole(value)}${U > 0 ? ` ±${whole(U)}` : ''} rpm`;
}

/** How fast it would have to turn dry, and what the figures rest on. */
export const primingGrounds = ({ neededSpeed, sealing }: Priming): string[] => [
  neededSpeed
    ? `Dry it would have to turn about ${roundSpeed(neededSpeed)}: air slips back through the gaps about ${Number(sealing.toPrecision(2))} times as easily as cold oil.`
    : 'Dry no speed would do.',
  '“Sealed”: cold oil or a packing at least as thick in the gaps, held to what dissolved air allows (17 kPa under the air outside: common practice, no source).',
  'The model: isothermal air in laminar slots; what the mesh carries back is left out, so the true lift is smaller.',
];

/** What to do, in the order of doing it. */
export function primingSteps(book: Book, { drives }: Priming): string[] {
  const sheet = book.sheet?.oil?.priming;
  const drill = drives.find(({ by }) => by === 'drill');
  const fills = drives.map(({ by, fill }) => `${Math.max(1, Math.ceil(fill))} s on the ${by}`).join(', ');
  const turning =
    sheet?.turns === undefined
      ? 'The sheet does not say which way the pump turns: turn the engine over by hand the way it runs, watch the pump’s drive, and turn the drill the same way.'
      : `The pump turns ${sheet.turns}: turn the drill the same way.`;
  return [
    drives.every(({ dryVerdict }) => dryVerdict === 'in')
      ? 'Dry it would lift; fill it with oil all the same: a wet start costs nothing.'
      : 'Pack the pump’s gears and faces with petroleum jelly, never with grease: jelly melts and goes with the oil, grease stays in the passages. Or fill pump and pickup with oil just before the cover goes on, and do not let it stand.',
    'Fill the filter and, where it can be reached, the gallery with oil.',
    `Plugs out, ignition and fuel off. ${
      drill
        ? `Drive the pump by a drill at about ${rpm(drill.speed)} of the pump${sheet?.drill === undefined ? ' (a guess for a hand drill; the sheet says nothing)' : ''}, else crank on the starter in short turns. ${turning}`
        : 'Crank on the starter in short turns.'
    }`,
    `No pressure before about ${fills}, once oil is at the pump: so long the passages named on the sheet take at the pump’s full sweep. Suction pipe, filter, galleries not on the sheet and what slips back are not in it and take longer.`,
    `STOP after ${STOP_AFTER_SECONDS} s without pressure (common practice, no source): prime again, then look for a leak in the suction or a pump on dry gears. Do not start the engine to find out.`,
  ];
}
