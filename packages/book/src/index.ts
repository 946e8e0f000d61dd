// The one door of the package.
export * from './ledger/bodies.ts';
export * from './ledger/entry.ts';
export * from './ledger/ledger.ts';
export * from './ledger/writing.ts';
export * from './sheet/relation.ts';
export * from './sheet/sheet.ts';
export {
  axisValues,
  type Place,
  placeFrom,
  placesOf,
  placeText,
  type Position,
  positionAt,
  positionsOf,
} from './sheet/places.ts';
export { readSheet } from './sheet/read-sheet.ts';
export { isHidden } from './sheet/cover-faults.ts';
export * from './sheet/places.ts';
export * from './fold/book.ts';
export { type Conflict } from './fold/decision.ts';
export { type IdleStrike } from './fold/strikes.ts';
export { foldedBook } from './fold/fold.ts';
export { type Assessed, type Assessment, assessment } from './assess/assessment.ts';
export { type Gate, gateAsSeen, type Reason } from './assess/gate.ts';
export { type Judgement, type Member, type Status } from './assess/judgement.ts';
export { type Limits, type LimitSetName, limitsOf, sourceOf } from './assess/limits.ts';
export { type NextMove } from './assess/next-move.ts';
export { type Operand } from './assess/operand.ts';
export { type Known, Reckoning, type Witness } from './assess/reckoning.ts';
export { asFittedNow, asFound, onTrial, type Selection, stateNamed } from './assess/selection.ts';
export { questionOfTorque, type TorqueAssessment } from './assess/torque.ts';
export { type Answer, RISK, type Verdict } from './assess/verdict.ts';
export * from './oil/circuit.ts';
export * from './oil/pressure.ts';
export { plausibleBand, questionOfReading } from './entering/plausible.ts';
export { admittedReading, type ReadingSaid, unknownCharacteristic } from './entering/reading.ts';
