// The one door of the package.

export { type Answered, answered, type Result } from './catalogue/answered.ts';
export type { Calculator } from './catalogue/calculator.ts';
export { CATALOGUE, calculatorNamed } from './catalogue/catalogue.ts';
export type { Field } from './catalogue/field.ts';
export { readInput } from './catalogue/read-input.ts';
export { type CalculatorSchema, calculatorSchema } from './catalogue/schema.ts';
export {
  bobweight,
  type PinLoad,
  type PinMasses,
  permissibleUnbalance,
  pinLoad,
  rodWeights,
} from './crank/balance.ts';
export {
  type CycleVector,
  crankpinLoad,
  loadSize,
  mainLoad,
  seenFromRod,
} from './crank/bearing-loads.ts';
export { centredCrank, cylinderPressure, diagramWork, TYPICAL_CYCLE } from './crank/cycle.ts';
export { journalOrbit, type Orbit, rodMeanTurning } from './crank/orbit.ts';
export { BIG_END_SHARE, IDLING_LOAD, MASS_OVER_AREA } from './crank/stand-ins.ts';
export { wrenchSetting } from './fasteners/adapter.ts';
export { boltThreadBending, nutDilation, nutThreadBending } from './fasteners/alexander.ts';
export { threadFrom } from './fasteners/designation.ts';
export { jointConstant } from './fasteners/joint.ts';
export { mildSteel } from './fasteners/mild-steel.ts';
export {
  type NutFactor,
  nutFactor,
  PRELOAD_SCATTER,
  statedNutFactor,
  THREAD_CONDITIONS,
  type ThreadCondition,
} from './fasteners/nut-factor.ts';
export { isoNutProof, saeNutProof } from './fasteners/nut-strength.ts';
export {
  type Friction,
  preloadAtStress,
  preloadByFriction,
  preloadByNutFactor,
  torqueByFriction,
  torqueByNutFactor,
  totalFriction,
  vonMisesStress,
} from './fasteners/preload.ts';
export { TIGHTENING_SCATTER, tighteningFactor } from './fasteners/scatter.ts';
export { type FastenerStrength, fastenerStrength, proofLoad } from './fasteners/strength.ts';
export {
  equalStrengthEngagement,
  externalShearArea,
  internalShearArea,
  stripRatio,
} from './fasteners/stripping.ts';
export {
  metricThread,
  minorDiameterArea,
  minorDiameterExternal,
  minorDiameterInternal,
  pitchDiameter,
  stressArea,
  stressDiameter,
  type Thread,
  unifiedThread,
} from './fasteners/thread.ts';
export { metricLimits, type ThreadLimits, threadLimits, unifiedLimits } from './fasteners/thread-limits.ts';
export {
  type TorqueAdvice,
  type TorqueCase,
  torqueAdvice,
  torqueQuestion,
} from './fasteners/torque-advice.ts';
export { type BearingTable, bearingTable, tabledBearing } from './film/bearing-table.ts';
export { type FedBearing, type FilmField, fedBearingAt, fedBearingFor } from './film/fed-bearing.ts';
export { plainBearingAt, plainBearingFor, plainFilm } from './film/plain-film.ts';
export { FARTHEST_SOLVED } from './film/plain-table.ts';
export {
  guideRelativeClearance,
  isoSommerfeld,
  selfContainedRise,
  TRUMPLER,
  trumplerFilm,
} from './film/steady-limits.ts';
export type { BearingShape } from './film/supply.ts';
export {
  boresToSuit,
  fitClearance,
  rootSumSquareHalfRange,
  type SizeLimits,
  shaftForClearance,
  shellCrush,
  shellWall,
} from './fits/fit.ts';
export {
  holdingTorque,
  hubHoopStress,
  type Press,
  pressPressure,
  shaftHoopStress,
  shrinkTemperature,
  slidingForce,
} from './fits/interference-fit.ts';
export { type Deviations, standardTolerance, toleranceDeviations } from './fits/limits-and-fits.ts';
export { leastTotal, type ShimChoice, shimsFor } from './fits/shims.ts';
export { type Circle, leastSquaresCircle, type RoundForm } from './form/circle.ts';
export { type DiameterAt, fittedOval, type Oval } from './form/oval.ts';
export { buretteLimit } from './geometry/burette.ts';
export { type CamEvents, camTiming } from './geometry/cam-events.ts';
export {
  brakeMeanPressure,
  dynamicCompression,
  isentropicRatio,
  volumeRatio,
} from './geometry/charge.ts';
export { type CleanUp, cleanUpBore, cleanUpJournal } from './geometry/clean-up.ts';
export {
  boreForVolume,
  clearanceForRatio,
  clearanceVolume,
  compressionRatio,
  pistonArea,
  sweptVolume,
} from './geometry/cylinder.ts';
export { clearanceFromRock, rockFromClearance } from './geometry/guide-rock.ts';
export {
  angleAtHalfStroke,
  deadCentres,
  distanceFromTop,
  meanPistonSpeed,
  pistonAcceleration,
  pistonTravel,
  pistonVelocity,
  type SliderCrank,
} from './geometry/piston-motion.ts';
export { diameterFromGap, filingFor, GAP_PER_BORE, ringGapIn } from './geometry/ring-gap.ts';
export { skimForRatio, skimForVolume, skimmedVolume } from './geometry/skim.ts';
export { coneLift, type Poppet, portArea, portLift, valveArea } from './geometry/valve-area.ts';
export * from './issue.ts';
export * from './ledger/canonical-json.ts';
export * from './ledger/sha256.ts';
export * from './ledger/uuid-v7.ts';
export { type Matching, type MatchingObjective, matching } from './matching/match.ts';
export {
  type CompressionSpread,
  compressionSpread,
  USUAL_SPREADS,
} from './metrology/compression-spread.ts';
export {
  type Conformity,
  conformity,
  decisionOn,
  type Estimate,
  estimateOf,
  probabilityInside,
  USUAL_RISK,
  type Verdict,
} from './metrology/conformity.ts';
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
export {
  type GaugeStudy,
  gaugeStudy,
  POOL_ABOVE,
  type StudyLine,
  type StudySource,
} from './metrology/gauge-study.ts';
export {
  type BudgetTerm,
  type InstrumentBudget,
  instrumentBudget,
  LIMIT_DIVISOR,
} from './metrology/instrument-budget.ts';
export { type LeafDoubt, type LeafStack, leafStacks, stackDoubt } from './metrology/leaf-stack.ts';
export type { Limits } from './metrology/limits.ts';
export * from './metrology/limits-of-error.ts';
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
export { type BandPoint, pressureBand } from './network/band.ts';
export { idealDelivery, pumpFigures, pumping, slipGaps } from './network/delivery.ts';
export type { DrawnNetwork } from './network/drawn.ts';
export { type HeatedFilm, heatedNetwork } from './network/heat.ts';
export { LAWS, type LawName } from './network/laws.ts';
export {
  type CompiledNetwork,
  compiledNetwork,
  type RunningConditions,
  type SolvedNetwork,
  solvedNetwork,
} from './network/network.ts';
export { type Knob, PreparedNetwork } from './network/prepared.ts';
export { type PressureMap, pressureMap, type RunningGrid } from './network/running-map.ts';
export { type ElementInput, type NetworkInput, networkSchema } from './network/schema.ts';
export {
  networkTrials,
  type RunningPoint,
  type TrialChunk,
  type TrialPlan,
  trialSpreads,
} from './network/trials.ts';
export * from './oil/bearing-feed.ts';
export * from './oil/density.ts';
export * from './oil/gear-pump.ts';
export * from './oil/gear-pump-rules.ts';
export * from './oil/grades.ts';
export * from './oil/orifice.ts';
export * from './oil/passage.ts';
export * from './oil/relief-valve.ts';
export * from './oil/short-bearing.ts';
export * from './oil/viscosity-index.ts';
export * from './oil/viscosity-temperature.ts';
export { ATMOSPHERE, airViscosity } from './priming/air.ts';
export { columnRiseTime } from './priming/column-rise.ts';
export * from './priming/dry-lift.ts';
export { netSuctionHead } from './priming/suction-head.ts';
export { endSealLength } from './seals/end-seal.ts';
export { CORK_SQUEEZE, squeezeFraction } from './seals/squeeze.ts';
export { SOURCES } from './sources/index.ts';
export type { Source, Sources } from './sources/source.ts';
export * from './springs/coil-spring.ts';
export {
  type StackEffect,
  type StackTerm,
  type StackUp,
  shareOutside,
  stackUp,
  type ToleranceShape,
  toleranceTerm,
} from './stack/stack-up.ts';
export { lagOneCorrelation } from './uncertainty/drift.ts';
export {
  fromExpanded,
  fromHalfWidth,
  fromResolution,
  type Repeated,
  repeated,
} from './uncertainty/evaluation.ts';
export { factorInPlace, logNormalDensity, unwhitenInPlace, whitenInPlace } from './uncertainty/gaussian.ts';
export { entropy, mutualInformation } from './uncertainty/information.ts';
export { type Between, jointProbability } from './uncertainty/joint-probability.ts';
export { fittedLine, type Line } from './uncertainty/line.ts';
export { monteCarlo, type Spread, type Trials } from './uncertainty/monte-carlo.ts';
export { normalBetween, normalCdf, normalDensity, normalQuantile } from './uncertainty/normal.ts';
export { rectangularSumCdf, rectangularSumHalfInterval } from './uncertainty/rectangular-sum.ts';
export { coverageFactor, studentCdf, studentQuantile } from './uncertainty/student.ts';
export {
  covariance,
  type Expanded,
  effectiveDof,
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
export { varianceRatioAbove } from './uncertainty/variance-ratio.ts';
export * from './units/kinds.ts';
export { type Written, writtenNumber } from './units/number.ts';
export { missingUnit, parseQuantity, type Quantity } from './units/quantity.ts';
export { quantityIn } from './units/quantity-in.ts';
export { type BareNumbers, type Bounds, readQuantity } from './units/read-quantity.ts';
export * from './units/si.ts';
export type { Unit } from './units/table.ts';
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
