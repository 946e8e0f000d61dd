// The one door of the package.

export { type AsRead, asRead } from './assess/as-read.ts';
export { type Assessed, type Assessment, assessed, assessment } from './assess/assessment.ts';
export type { Deciding } from './assess/deciding-tool.ts';
export { expands } from './assess/expansion.ts';
export type { LargestDoubt } from './assess/finer-input.ts';
export { type Gate, gateAsSeen } from './assess/gate.ts';
export type { Judgement, Member, Status } from './assess/judgement.ts';
export type { Known } from './assess/known.ts';
export { NO_ANSWER } from './assess/known.ts';
export {
  type LimitSetName,
  type Limits,
  limitsOf,
  type SourcedBounds,
  sourcedName,
  sourcesOf,
} from './assess/limits.ts';
export type { Witness } from './assess/merging.ts';
export type { NextMove } from './assess/next-move.ts';
export { stackToTry } from './assess/next-move-by-leaf.ts';
export { type Further, furtherMoves } from './assess/next-move-further.ts';
export { leafOfFewestTries } from './assess/next-move-leaf.ts';
export type { Operand } from './assess/operand.ts';
export { type ReadAgain, readAgain } from './assess/read-again.ts';
export type { Reason } from './assess/reason.ts';
export { Reckoning } from './assess/reckoning.ts';
export type { Catalogue } from './assess/relations.ts';
export { asFittedNow, asFound, onTrial, type Selection, stateNamed } from './assess/selection.ts';
export type { Spot } from './assess/spot.ts';
export { questionOfTorque, type TorqueAssessment, torqueAssessment } from './assess/torque.ts';
export { isToBeDecided, torqueDecided } from './assess/torque-deciding.ts';
export { type Answer, RISK, type Verdict } from './assess/verdict.ts';
export { admittedSupply } from './basket/admitted-supply.ts';
export { type Basket, basketOf } from './basket/basket.ts';
export { needNames } from './basket/covered-issues.ts';
export { needOfPosition } from './basket/need-name.ts';
export { type OrderStanding, orderStandings } from './basket/order-standing.ts';
export { type Amount, amountOf, amountText } from './chest/amount.ts';
export { budgetOf, type WorkedBudget } from './chest/budget-of.ts';
export { type BuildSaid, type Built, builtInstrument, readsAsUncertainty } from './chest/built.ts';
export {
  admittedCheck,
  admittedCorrection,
  type CheckSaid,
  type CheckState,
  checkState,
} from './chest/check.ts';
export type { InstrumentType, Setting } from './chest/instrument-type.ts';
export { INSTRUMENT_TYPES } from './chest/instrument-types.ts';
export { leavesSaid } from './chest/stacked.ts';
export { type StackRow, stacksNear } from './chest/stacks.ts';
export { admittedStudy, adoptedStudy, type StudyWorked, studyWorked } from './chest/study.ts';
export { type PlannedRepairs, plannedRepairs } from './deciding/planned-repairs.ts';
export { type Proposal, proposalsOf } from './deciding/proposal.ts';
export {
  type CalibratedConstant,
  type CalibratedPressure,
  type Calibration,
  calibrated,
} from './diagnosis/calibration.ts';
export { type DiagnosedFamily, type Diagnosis, diagnosed } from './diagnosis/diagnosis.ts';
export type { OutcomeMeaning, RankedTest } from './diagnosis/expected-information.ts';
export type { Family } from './diagnosis/family.ts';
export { amendedLimits } from './entering/amended-limits.ts';
export { admittedAmendment } from './entering/amendment.ts';
export { isQuestion, offeredBy } from './entering/plausible.ts';
export { admittedReading, type ReadingSaid, unknownCharacteristic } from './entering/reading.ts';
export { currencySaid, isCurrency, sumSaid } from './entering/sum-said.ts';
export type { SheetReader } from './fold/amendments.ts';
export * from './fold/book.ts';
export type { Conflict } from './fold/decision.ts';
export { foldedBook } from './fold/fold.ts';
export type { IdleStrike } from './fold/strikes.ts';
export { issuesOf } from './issues-of-zod.ts';
export { type Astray, partsAstray } from './keeping/astray.ts';
export { type Unclean, uncleanParts } from './keeping/cleaning.ts';
export { jointMoments, type OpenJoint, openJoints } from './keeping/joints.ts';
export { isQuiet, morningCard } from './keeping/morning.ts';
export { type OpeningCount, openingCounts } from './keeping/openings.ts';
export { CLOCKS_APART } from './keeping/sealant.ts';
export * from './ledger/bodies.ts';
export * from './ledger/entry.ts';
export { envelopeSchema } from './ledger/envelope.ts';
export * from './ledger/ledger.ts';
export { readEntry } from './ledger/read-entry.ts';
export * from './ledger/writing.ts';
export { allMaps, mapsShowing, measuredOf } from './maps/all-maps.ts';
export type { JobCard } from './maps/job-cards.ts';
export type { JobFace } from './maps/job-faces.ts';
export { type JobMap, jobMap, type PlaceCell } from './maps/job-maps.ts';
export type { JobSpring } from './maps/job-springs.ts';
export { MAP_KINDS, type MapKind, mapKindOf } from './maps/map-kind.ts';
export * as mapPictures from './maps/map-pictures.ts';
export { type MatchingTried, matchingsTried } from './matching/all-matchings.ts';
export { type JobMatching, jobMatching, type Placing, sameOrder } from './matching/job-matching.ts';
export {
  type BearingLoads,
  CYCLE_POINTS,
  type FilledCrank,
  filledCrank,
  type LoadFigure,
} from './oil/bearing-loads.ts';
export * from './oil/circuit.ts';
export { type CautionOver, cautionsOver } from './oil/circuit-cautions.ts';
export { type CircuitFlows, circuitFlows, type FlowGroup } from './oil/circuit-flows.ts';
export type { DoubtCause } from './oil/doubt-causes.ts';
export { type FilmField, filmField } from './oil/film-field.ts';
export { type BearingFilm, type FilmPrediction, filmPrediction } from './oil/film-temperatures.ts';
export { gaugeReadingsAt } from './oil/gauge-readings.ts';
export { type Narrowing, narrowing } from './oil/narrowing.ts';
export * from './oil/pressure.ts';
export { pressureVerdict, type WantedPressure, wantedPressure } from './oil/pressure-limit.ts';
export {
  type MapGrid,
  type MapLimit,
  mapLimits,
  type PressureMap,
  pressureMap,
  sheetGrid,
} from './oil/pressure-map.ts';
export { type Priming, type PrimingDrive, priming } from './oil/priming.ts';
export { pressureStair, roundedToSum, type Stair, type Tread } from './oil/stair.ts';
export { expectedPressure, type GaugeJudgement, gaugeJudgement } from './oil/start-up.ts';
export { daysOf } from './plan/lead-time.ts';
export { type MeasuringMove, type MostDoubt, measuringMoves } from './plan/measuring.ts';
export { admittedOffer } from './plan/offers.ts';
export { type RepairPlan, repairPlan } from './plan/plan.ts';
export { type Planning, type PlanSet, planningOf } from './plan/planning.ts';
export type { Requirement } from './plan/requirements.ts';
export { type ReadingPlan, readingPlan } from './reading-plan/plan.ts';
export { csvFromSheet, leftOutOfCsv } from './sheet/csv-from-sheet.ts';
export { type SheetFromCsv, sheetFromCsv } from './sheet/csv-to-sheet.ts';
export { LAYOUTS, type Layout } from './sheet/layout.ts';
export { type Outline, outlineSheet } from './sheet/outline.ts';
export * from './sheet/places.ts';
export { readSheet } from './sheet/read-sheet.ts';
export * from './sheet/relation.ts';
export { entryJsonSchema, specSheetJsonSchema } from './sheet/schema.ts';
export * from './sheet/sheet.ts';
export { sheetWithList } from './sheet/sheet-with-list.ts';
export { type JobSizes, jobSizes, type SizesAsked } from './sizes/job-sizes.ts';
export { type SlipComponent, type SlipLine, slipOf } from './slip/slip.ts';
export { readingsOf, type SpokenReading, spoken, spokenEntries } from './spoken/spoken.ts';
export { type JobStack, jobStack, placesAsked, type StackAsked, stacksOf } from './stack/job-stack.ts';
export type { StackBy } from './stack/leaves.ts';
export { judgementsOfPart } from './tags/part-judgements.ts';
export { type Tag, tagOf } from './tags/tag.ts';
export { isTagAddress, partSought } from './tags/tag-code.ts';
export { TAG_SIZES, type TagSize, tagGrid } from './tags/tag-sizes.ts';
export { admittedTask } from './timeline/admitted-task.ts';
export { dueWords } from './timeline/time-there.ts';
export { type PlannedTask, type TimeLine, timeLineOf } from './timeline/timeline.ts';
export * as basketWords from './words/basket.ts';
export type { Block } from './words/block.ts';
export * as chestWords from './words/chest.ts';
export { circuitCautionWords } from './words/circuit-cautions.ts';
export { isZone, momentWords, spanWords } from './words/clock.ts';
export * as decidingWords from './words/deciding.ts';
export * as diagnosisWords from './words/diagnosis.ts';
export { diagnosisWorking } from './words/diagnosis-working.ts';
export { temperatureCauseWords } from './words/doubt-cause.ts';
export * as filmWords from './words/film.ts';
export * as filmPictures from './words/film-pictures.ts';
export * as keepingWords from './words/keeping.ts';
export * as leavesWords from './words/leaves.ts';
export * as mapWords from './words/maps.ts';
export * as matchingWords from './words/matching.ts';
export * as moneyWords from './words/money.ts';
export {
  asOfWords,
  type MorningLine,
  type MorningSection,
  morningSections,
  QUIET,
} from './words/morning.ts';
export * as narrowingWords from './words/narrowing.ts';
export * as nextMoveWords from './words/next-move.ts';
export { noticesOf } from './words/notices.ts';
export * as planWords from './words/plan.ts';
export * as planReasonWords from './words/plan-reasons.ts';
export { planWorking } from './words/plan-working.ts';
export { placeInWords, positionWords } from './words/position.ts';
export {
  pressureDecimals,
  pressureUnit,
  pressureWords,
  wantedWords,
} from './words/pressure.ts';
export * as primingWords from './words/priming.ts';
export { proofWords } from './words/proof.ts';
export * as quantityWords from './words/quantity.ts';
export * as readingPlanWords from './words/reading-plan.ts';
export { relationWords } from './words/relation.ts';
export * as sizesWords from './words/sizes.ts';
export * as slipWords from './words/slip.ts';
export * as stackWords from './words/stack.ts';
export * as stairWords from './words/stair.ts';
export * as startUpWords from './words/start-up.ts';
export * as tagWords from './words/tags.ts';
export { temperatureNote } from './words/temperature.ts';
export * as timelineWords from './words/timeline.ts';
export { torqueDoubtWords } from './words/torque.ts';
export { unawaitedWords } from './words/unawaited.ts';
