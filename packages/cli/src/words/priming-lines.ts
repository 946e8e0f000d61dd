import { type Book, type Priming, type PrimingDrive, STOP_AFTER_SECONDS } from '@fettle/book';
import { expanded, inUnit, printQuantity, type Uncertain } from '@fettle/core';
import { heading, table, wrapped } from './table.ts';

const WIDTH = 100;
const VERDICTS = { in: 'lifts it', out: 'DOES NOT LIFT IT', 'cannot-tell': 'cannot tell' } as const;

/** The unit of length the sheet gives the lift in. */
function lengthUnit(book: Book): string {
  return /[a-z]+$/i.exec(book.sheet?.oil?.priming?.lift ?? '')?.[0] ?? 'mm';
}

function spread(q: Uncertain, unit: string, decimals: number): string {
  const U = inUnit(expanded(q).U, unit);
  return `${inUnit(q.value, unit).toFixed(decimals)}${U > 0 ? ` ±${U.toFixed(decimals)}` : ''} ${unit}`;
}

const rpm = (speed: number): string => printQuantity(speed, 'rpm', 0);

function driveRow(
  { by, speed, dry, dryVerdict, sealed, sealedVerdict }: PrimingDrive,
  unit: string,
): string[] {
  return [
    by,
    rpm(speed),
    spread(dry, unit, 2),
    VERDICTS[dryVerdict],
    spread(sealed, unit, 0),
    VERDICTS[sealedVerdict],
  ];
}

/** Which way to turn it, or how to find out. */
function turning(book: Book): string {
  const turns = book.sheet?.oil?.priming?.turns;
  return turns === undefined
    ? 'The sheet does not say which way the pump turns: turn the engine over by hand the way it runs and watch the pump’s drive, then turn the drill the same way.'
    : `The pump turns ${turns}: turn the drill the same way.`;
}

/** What to do, in the order of doing it. */
export function primingSteps(book: Book, priming: Priming): string[] {
  const dry = priming.drives.every(({ dryVerdict }) => dryVerdict === 'in');
  const drill = priming.drives.find(({ by }) => by === 'drill')!;
  return [
    dry
      ? 'Dry it would lift; fill it with oil all the same: a wet start costs nothing.'
      : 'Pack the pump’s gears and faces with petroleum jelly, never with grease: jelly melts and goes with the oil, grease stays in the passages. Or fill pump and pickup with oil just before the cover goes on, and do not let it stand.',
    'Fill the filter and, where it can be reached, the gallery with oil.',
    `Plugs out, ignition and fuel off. Drive the pump by a drill at about ${rpm(drill.speed)} of the pump${book.sheet?.oil?.priming?.drill === undefined ? ' (a guess for a hand drill; the sheet says nothing)' : ''}, else crank on the starter in short turns. ${turning(book)}`,
    `Pressure should show within about ${Math.max(1, Math.ceil(drill.fill))} s on the drill and ${Math.max(1, Math.ceil(priming.drives[0]!.fill))} s on the starter once oil is at the pump: so long its passages take to fill, and what is not on the sheet takes longer.`,
    `STOP after ${STOP_AFTER_SECONDS} s without pressure (common practice, no source): prime again, then look for a leak in the suction or a pump on dry gears. Do not start the engine to find out.`,
  ];
}

const CAUTIONS = [
  'A drill can snatch: hold it by its side grip, no gloves, no loose sleeves; keep clear of what turns with the pump.',
  'Fuel and ignition off while the engine is turned; fingers out of the engine. The maker’s own priming procedure outranks this.',
];

/** Whether the pump primes, for a person. */
export function primingLines(book: Book, priming: Priming): string[] {
  const unit = lengthUnit(book);
  const gap = ({ name, value, measured }: Priming['gaps'][number]): string =>
    `${name} ${spread(value, unit, unit === 'in' ? 4 : 3)}${measured ? '' : ' (NOT MEASURED, as new)'}`;
  return [
    `Does the pump lift oil ${printQuantity(priming.lift, unit, 1)} to itself? At ${printQuantity(priming.temperature, 'degC', 0)}; ${priming.gaps.map(gap).join(', ')}`,
    '',
    ...table(
      [
        ['driven by', 'pump', 'lifts dry', '', 'sealed', ''],
        ...priming.drives.map((drive) => driveRow(drive, unit)),
      ],
      '  ',
    ),
    ...wrapped(
      priming.neededSpeed
        ? `Dry it would have to turn ${rpm(priming.neededSpeed.value)}${priming.neededSpeed.terms.length > 0 ? ` ±${rpm(expanded(priming.neededSpeed).U)}` : ''}: air slips back through the gaps ${printQuantity(priming.sealing, '1', 0)} times as easily as cold oil.`
        : 'Dry no speed would do.',
      WIDTH,
      '  ',
    ).map((line) => `  ${line}`),
    ...wrapped(
      '“Sealed”: cold oil or a packing at least as thick in the gaps, held to what dissolved air allows (17 kPa under the air outside: common practice, no source).',
      WIDTH,
      '  ',
    ).map((line) => `  ${line}`),
    ...heading('What to do'),
    ...primingSteps(book, priming).flatMap((step, i) =>
      wrapped(`${i + 1}. ${step}`, WIDTH, '   ').map((line) => `  ${line}`),
    ),
    ...heading('Caution'),
    ...CAUTIONS.flatMap((one) => wrapped(one, WIDTH, '').map((line) => `  ${line}`)),
    '',
    ...wrapped(
      'The model: isothermal air in laminar slots; what the mesh carries back is left out, so the true lift is smaller. Formula and sources: fettle calc dry-lift.',
      WIDTH,
      '',
    ),
  ];
}
