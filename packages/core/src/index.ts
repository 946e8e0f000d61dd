// The one door of the package.
export * from './issue.ts';
export * from './units/si.ts';
export * from './units/kinds.ts';
export * from './ledger/canonical-json.ts';
export * from './ledger/sha256.ts';
export * from './ledger/uuid-v7.ts';
export { parseQuantity, missingUnit, type Quantity } from './units/quantity.ts';
export {
  fromUnit,
  inUnit,
  kindOfUnit,
  kindsOf,
  printQuantity,
  ucumCode,
  unitNamed,
  unitsOfKind,
} from './units/unit.ts';
export type { Unit } from './units/table.ts';
export { type Written, writtenNumber } from './units/number.ts';
export { fromExpanded, fromHalfWidth, fromResolution, type Repeated, repeated } from './uncertainty/evaluation.ts';
export { fittedLine, type Line } from './uncertainty/line.ts';
export { monteCarlo, type Spread, type Trials } from './uncertainty/monte-carlo.ts';
export { normalBetween, normalCdf, normalDensity, normalQuantile } from './uncertainty/normal.ts';
export { coverageFactor, studentQuantile } from './uncertainty/student.ts';
export {
  covariance,
  effectiveDof,
  type Expanded,
  exact,
  expanded,
  linear,
  propagated,
  type Shape,
  standardUncertainty,
  type Term,
  term,
  type Uncertain,
  uncertain,
} from './uncertainty/uncertain.ts';
export { compiledNetwork, type CompiledNetwork, type RunningConditions, type SolvedNetwork, solvedNetwork } from './network/network.ts';
export { type ElementInput, type NetworkInput, networkSchema } from './network/schema.ts';
export { type Conformity, conformity, USUAL_RISK, type Verdict } from './metrology/conformity.ts';
export {
  type Bracket,
  bracketMiddle,
  bracketOf,
  feelerVerdict,
  leavesBetween,
  nextLeaf,
  shareInside,
  triesFor,
  triesLeft,
} from './metrology/feeler.ts';
export type { Limits } from './metrology/limits.ts';
export { normalisedError, type Pooled, pooled } from './metrology/pooling.ts';
export { capabilityIndex, type Production, type SharedRisk, sharedRisk } from './metrology/shared-risk.ts';
export { type Cut, cutByBracket } from './metrology/soft-bracket.ts';
export {
  lengthAt20,
  lengthAtTemperature,
  measuredAt20,
  REFERENCE_CELSIUS,
  type Warmth,
} from './metrology/temperature.ts';
export { threadFrom } from './fasteners/designation.ts';
export type { Calculator } from './catalogue/calculator.ts';
export type { Field } from './catalogue/field.ts';
