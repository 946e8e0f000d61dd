import {
  type Metre,
  type NewtonMetre,
  type Outcome,
  type Pascal,
  parseQuantity,
  type QuantityKind,
  type TorqueAdvice,
  torqueAdvice,
} from '@fettle/core';
import type { Fastener } from '../sheet/sheet.ts';

/** [N·m]; undefined where it does not read. */
export const torqueOf = (text: string): NewtonMetre | undefined => {
  const read = parseQuantity(text, 'torque');
  return read.ok ? (read.value.value as NewtonMetre) : undefined;
};

/** What a torque does to its fastener with the threads as somebody found them, and not as the sheet has them. */
export function adviceIn(fastener: Fastener, torque: string, condition: string): Outcome<TorqueAdvice> {
  const applied = torqueOf(torque) ?? (Number.NaN as NewtonMetre);
  return torqueAdvice({ ...caseOf(fastener), condition, nutFactor: undefined, torque: applied });
}

/** A fastener of the sheet as the advice on a torque asks for it. */
export const caseOf = (fastener: Fastener) => ({
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
