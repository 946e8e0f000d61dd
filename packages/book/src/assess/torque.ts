import {
  type Issue,
  type Metre,
  type NewtonMetre,
  type Outcome,
  type Pascal,
  parseQuantity,
  type Quantity,
  type QuantityKind,
  type TorqueAdvice,
  torqueAdvice,
  torqueQuestion,
} from '@fettle/core';
import { unitsMeant } from '../entering/plausible.ts';
import type { Book, Written } from '../fold/book.ts';
import { isAt, type Place, placesOf } from '../sheet/places.ts';
import type { Fastener } from '../sheet/sheet.ts';

/** What the sheet's torque would do to its fastener, and what has been logged against it. */
export interface TorqueAssessment {
  readonly fastener: Fastener;
  /** Advice on the highest torque the sheet names. */
  readonly advice: Outcome<TorqueAdvice>;
  /** Places whose last pass at the sheet's torque is not logged. */
  readonly unlogged: readonly Place[];
  readonly passes: readonly Written<'torque-pass'>[];
}

const torqueOf = (text: string): NewtonMetre | undefined => {
  const read = parseQuantity(text, 'torque');
  return read.ok ? (read.value.value as NewtonMetre) : undefined;
};

/** Two figures of one unit that differ by less than this are the same figure. */
const SAME = 1e-6;

export function torqueAssessment(book: Book, fastener: Fastener): TorqueAssessment {
  const lower = torqueOf(fastener.torque.lower) ?? Number.NaN;
  const upper = torqueOf(fastener.torque.upper ?? fastener.torque.lower) ?? Number.NaN;
  const passes = book.torquePasses.filter(({ body }) => body.fastener === fastener.id);
  const tight = passes.filter(({ body }) => {
    const torque = torqueOf(body.torque);
    return (
      body.pass >= body.of &&
      body.of >= fastener.passes &&
      torque !== undefined &&
      torque >= lower * (1 - SAME) &&
      torque <= upper * (1 + SAME)
    );
  });
  const places = placesOf(book.sheet ?? { axes: {} }, fastener);
  return {
    fastener,
    advice: torqueAdvice({ ...caseOf(fastener), torque: upper as NewtonMetre }),
    unlogged: places.filter((place) => !tight.some(({ body }) => isAt(body.place ?? {}, place))),
    passes,
  };
}

const caseOf = (fastener: Fastener) => ({
  designation: fastener.thread,
  grade: fastener.grade,
  condition: fastener.nut_factor === undefined ? fastener.condition : undefined,
  nutFactor: fastener.nut_factor,
  hole: fastener.into && {
    designation: fastener.into.thread,
    engagement: siOf(fastener.into.engagement, 'length') as Metre | undefined,
    tensile: siOf(fastener.into.tensile_strength, 'pressure') as Pascal | undefined,
  },
});

/** What a sheet's quantity is in SI; its faults were found when the sheet was read. */
function siOf(text: string | undefined, kind: QuantityKind): number | undefined {
  const read = text === undefined ? undefined : parseQuantity(text, kind);
  return read?.ok ? read.value.value : undefined;
}

/**
 * The question a torque raises before it is logged: so large that a unit has probably slipped, or off the sheet's
 * figure while the same number in another unit is on it.
 */
export function questionOfTorque(fastener: Fastener, torque: string): Issue | undefined {
  const read = parseQuantity(torque, 'torque');
  if (!read.ok) return undefined;
  return (
    unitQuestion(fastener, read.value) ??
    torqueQuestion({ ...caseOf(fastener), torque: read.value.value as NewtonMetre })
  );
}

/** How far beside the sheet's torque the hand may stop [share]. Common practice, no source. */
const HAND = 0.05;

function unitQuestion({ name, torque }: Fastener, said: Quantity): Issue | undefined {
  const lower = torqueOf(torque.lower);
  const upper = torqueOf(torque.upper ?? torque.lower);
  if (lower === undefined || upper === undefined) return undefined;
  const wanted = { from: lower * (1 - HAND), to: upper * (1 + HAND) };
  if (said.value >= wanted.from && said.value <= wanted.to) return undefined;
  const [meant] = unitsMeant(said, 'torque', wanted);
  if (meant === undefined) return undefined;
  const sheet = torque.upper === undefined ? torque.lower : `${torque.lower} to ${torque.upper}`;
  return {
    code: 'torque/unit',
    at: 'torque',
    got: said.text,
    wanted: sheet,
    message: `${name}: ${said.text} is ${(said.value / lower).toFixed(2)} times what the sheet asks for, ${sheet}. Was it ${meant}? Look at the scale of the wrench, then confirm or correct it.`,
  };
}
