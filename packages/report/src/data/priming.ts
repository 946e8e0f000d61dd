import { type Book, type Priming, type PrimingDrive, priming, STOP_AFTER_SECONDS } from '@fettle/book';
import { expanded, inUnit, printQuantity, type Uncertain } from '@fettle/core';
import type { Prediction } from './prediction.ts';

const VERDICTS = { in: 'lifts it', out: 'DOES NOT LIFT IT', 'cannot-tell': 'cannot tell' } as const;

const CAUTIONS = [
  'A drill can snatch: hold it by its side grip, no gloves, no loose sleeves; keep clear of what turns with the pump.',
  'Fuel and ignition off while the engine is turned; fingers out of the engine. The maker’s own priming procedure outranks this.',
];

function spread(q: Uncertain, unit: string, decimals: number): string {
  const U = inUnit(expanded(q).U, unit);
  return `${inUnit(q.value, unit).toFixed(decimals)}${U > 0 ? ` ±${U.toFixed(decimals)}` : ''} ${unit}`;
}

const rpm = (speed: number): string => printQuantity(speed, 'rpm', 0);

/** Whether the pump, with the clearances it has, lifts oil to itself before the first start, and what to do. */
export function primingPages(book: Book, { circuit }: Prediction) {
  const found = priming(book, circuit);
  if (!found.ok)
    return {
      why_not: found.issues[0]!.message,
      asks: '',
      drives: [],
      said: [],
      steps: [],
      cautions: CAUTIONS,
    };
  const { lift, temperature, gaps, drives } = found.value;
  // In the unit in which the sheet gives the lift.
  const unit = /[a-z]+$/i.exec(book.sheet?.oil?.priming?.lift ?? '')?.[0] ?? 'mm';
  const gap = ({ name, value, measured }: Priming['gaps'][number]): string =>
    `${name} ${spread(value, unit, unit === 'in' ? 4 : 3)}${measured ? '' : ' (NOT MEASURED, taken as new)'}`;
  return {
    why_not: '',
    asks: `Does the pump lift oil ${printQuantity(lift, unit, 1)} to itself? At ${printQuantity(temperature, 'degC', 0)}; ${gaps.map(gap).join(', ')}.`,
    drives: drives.map((drive) => driveRow(drive, unit)),
    said: saidOf(found.value),
    steps: stepsOf(book, found.value),
    cautions: CAUTIONS,
  };
}

const driveRow = ({ by, speed, dry, dryVerdict, sealed, sealedVerdict }: PrimingDrive, unit: string) => ({
  by,
  speed: rpm(speed),
  dry: spread(dry, unit, 2),
  dry_verdict: VERDICTS[dryVerdict],
  sealed: spread(sealed, unit, 0),
  sealed_verdict: VERDICTS[sealedVerdict],
});

const saidOf = ({ neededSpeed, sealing }: Priming): string[] => [
  neededSpeed
    ? `Dry it would have to turn ${spread(neededSpeed, 'rpm', 0)}: air slips back through the gaps about ${Number(sealing.toPrecision(2))} times as easily as cold oil.`
    : 'Dry no speed would do.',
  '“Sealed”: cold oil or a packing at least as thick in the gaps, held to what dissolved air allows (17 kPa under the air outside: common practice, no source). The model: isothermal air in laminar slots; what the mesh carries back is left out, so the true lift is smaller.',
];

function stepsOf(book: Book, { drives }: Priming): string[] {
  const sheet = book.sheet?.oil?.priming;
  const drill = drives.find(({ by }) => by === 'drill');
  const starter = drives.find(({ by }) => by === 'starter');
  const seconds = (drive: PrimingDrive): string => `${Math.max(1, Math.ceil(drive.fill))} s`;
  const turning =
    sheet?.turns === undefined
      ? 'The sheet does not say which way the pump turns: turn the engine over by hand the way it runs and watch the pump’s drive, then turn the drill the same way.'
      : `The pump turns ${sheet.turns}: turn the drill the same way.`;
  return [
    drives.every(({ dryVerdict }) => dryVerdict === 'in')
      ? 'Dry it would lift; fill it with oil all the same: a wet start costs nothing.'
      : 'Pack the pump’s gears and faces with petroleum jelly, never with grease: jelly melts and goes with the oil, grease stays in the passages. Or fill pump and pickup with oil just before the cover goes on, and do not let it stand.',
    'Fill the filter and, where it can be reached, the gallery with oil.',
    ...(drill
      ? [
          `Plugs out, ignition and fuel off. Drive the pump by a drill at about ${rpm(drill.speed)} of the pump${sheet?.drill === undefined ? ' (a guess for a hand drill; the sheet says nothing)' : ''}, else crank on the starter in short turns. ${turning}`,
        ]
      : []),
    ...(drill && starter
      ? [
          `Pressure should show within about ${seconds(drill)} on the drill and ${seconds(starter)} on the starter once oil is at the pump: so long its passages take to fill, and what is not on the sheet takes longer.`,
        ]
      : []),
    `STOP after ${STOP_AFTER_SECONDS} s without pressure (common practice, no source): prime again, then look for a leak in the suction or a pump on dry gears. Do not start the engine to find out.`,
  ];
}
