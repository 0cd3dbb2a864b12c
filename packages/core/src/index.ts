// biome-ignore-all assist/source/organizeImports: in the order of the method manual, a block for each module

/**
 * Everything that needs no disk: Node, browsers and workers alike.
 *
 * @module @bothtacks/core
 */

// units, angles and circular statistics, M1 to M8
export * from "./units.ts";
export * from "./angles.ts";
export * from "./circular.ts";

// physics, M9 to M19
export * from "./physics/vectors.ts";
export * from "./physics/windTriangle.ts";
export * from "./physics/trueWindColumns.ts";
export * from "./physics/attitude.ts";
export * from "./physics/leeway.ts";
export * from "./physics/current.ts";
export * from "./physics/windProfile.ts";
export * from "./physics/variation.ts";
export * from "./physics/meanOfMeans.ts";
export { type ChartVariation, variationFromChart } from "./physics/chartVariation.ts";

// sensors and their faults, M20 to M29
export type * from "./sensors/parameters.ts";
export { PARAMETER_NAMES, type ParameterName } from "./sensors/parameterNames.ts";
export { noCorrections } from "./sensors/noCorrections.ts";
export * from "./sensors/speedSensor.ts";
export * from "./sensors/compass.ts";
export * from "./sensors/heelSensor.ts";
export * from "./sensors/vane.ts";
export * from "./sensors/anemometer.ts";
export * from "./sensors/heelModel.ts";
export * from "./sensors/deviationSeries.ts";
export * from "./sensors/boatState.ts";
export * from "./sensors/boatReadings.ts";

// recordings, M30 to M35
export * from "./recording/index.ts";

// calibration: corrections as one value, M28
export { readingsWithActive, readingsWithoutActive } from "./calibration/activeReadings.ts";
export {
  type Applicability,
  applicability,
  settingsDifference,
  settingsIncrement,
} from "./calibration/activeSettings.ts";
export * from "./calibration/boat.ts";
export { BOAT_FILE, boatFromFile, boatInFile, UNKNOWN_BOAT } from "./calibration/boatFile.ts";
export * from "./calibration/calibration.ts";
export { calibrationFileText, calibrationFromFile, PARAMETER_UNITS } from "./calibration/calibrationFile.ts";
export { CALIBRATION_FILE } from "./calibration/calibrationSchema.ts";
export { COLUMNS_FILE, columnsFromFile } from "./calibration/columnsFile.ts";
export { columnsSkeleton } from "./calibration/columnsSkeleton.ts";
export type { EdgeUnit } from "./calibration/edgeUnits.ts";
export { RefusedFile } from "./calibration/refusedFile.ts";
export { settingsAfter } from "./calibration/startingFrom.ts";

// sailing, M30 to M39
export { type AlignmentCounts, SecondsAligner, type SecondsAlignerOptions } from "./sailing/clock.ts";
export type { Lag } from "./sailing/lagCorrelation.ts";
export { LagShifter } from "./sailing/lagShifter.ts";
export { LAGGED, LagEstimator, type Lagged, type Lags } from "./sailing/lags.ts";
export * from "./sailing/legRow.ts";
export { mergedSailing, type SailingPart } from "./sailing/mergedSailing.ts";
export type { Sailing } from "./sailing/sailing.ts";
export { byChannel, CHANNELS, type Channel, type SecondsBlock } from "./sailing/series.ts";
export {
  type SailingOptions,
  SailingSummary,
  summariseSailing,
} from "./sailing/summary.ts";
export {
  type CorrectedSecond,
  type CorrectionOptions,
  correctedSeconds,
} from "./sailing/correctedSeconds.ts";
export type { LoggedSecond } from "./sailing/loggedSecond.ts";

// live, M150 and M151
export * from "./live/damping.ts";
export * from "./live/attitudeRate.ts";
export * from "./live/liveArrays.ts";
export * from "./live/liveState.ts";
export * from "./live/liveWind.ts";
export * from "./live/liveColumns.ts";

// sensors in trouble, M90 to M96
export type { StraySecond } from "./sailing/straySeconds.ts";
export type { Remedy, Trouble, TroubleKind, WatchedChannel } from "./sailing/trouble.ts";

// simulation, M70 to M79
export { anotherDay, drawScenario, type ScenarioOptions } from "./simulate/drawScenario.ts";
export { drawFaults, faultlessBoat } from "./simulate/drawFaults.ts";
export { type BoatFaults, noFaults } from "./simulate/faults.ts";
export { type RandomNumbers, randomNumbers } from "./simulate/random.ts";
export { nearestSettings } from "./simulate/nearestSettings.ts";
export type { PlanStep, Scenario } from "./simulate/scenario.ts";
export { scenarioFileText, scenarioFromFile, scenarioInFile } from "./simulate/scenarioFile.ts";
export { SCENARIO_FILE } from "./simulate/scenarioSchema.ts";
export type { SensorTrouble, TroubledSensor } from "./simulate/sensorTroubles.ts";
export { linesOfSail } from "./simulate/simulatedLog.ts";
export { type SimulatedSail, simulatedSail } from "./simulate/simulatedSail.ts";
export { secondsOfSail } from "./simulate/simulatedSeconds.ts";
export type { Truth, TruthColumn } from "./simulate/truth.ts";

// fitting, M40 to M55
export { leastSquares, standardDeviations } from "./fit/leastSquares.ts";
export type {
  LeastSquares,
  LeastSquaresOptions,
  LeastSquaresProblem,
  SolvedLeastSquares,
  UnsolvedLeastSquares,
} from "./fit/leastSquaresProblem.ts";
export { type RobustLeastSquares, robustLeastSquares } from "./fit/robustLeastSquares.ts";
export * from "./fit/robustWeights.ts";
export * from "./fit/stateSpace.ts";
export { BOAT_PRIORS, type Prior } from "./fit/priors.ts";
export {
  circleDeviationAt,
  type DeviationCircleOptions,
  type DeviationTerm,
  fitDeviation,
  type SeenDeviation,
  type SolvedCircle,
  type UnsolvedCircle,
} from "./fit/deviationCircle.ts";
export {
  currentOfRuns,
  logOfRuns,
  type MeasuredRun,
  type MeasuredRunsOptions,
  type RunsCurrent,
  type SolvedLog,
  type SolvedSpeed,
  speedOfRuns,
  type UnsolvedRuns,
} from "./fit/measuredRuns.ts";
export { settingsOf, vectorOf } from "./fit/settingsVector.ts";
export type { ImpliedStates } from "./fit/impliedState.ts";
export type { FitContext, RecordingChannels } from "./fit/fitContext.ts";
export { channelsOf } from "./fit/recordingChannels.ts";
export type {
  BoatFit,
  FittedParameter,
  SolvedBoatFit,
  UnsolvedBoatFit,
  WanderScales,
} from "./fit/boatFit.ts";
export { errorCovariance } from "./fit/doubtOfPriors.ts";
export { fitBoat } from "./fit/fitBoat.ts";

// judging, M60 to M64 and M80 to M84
export { statesCorrected, statesOnBoard } from "./judge/rowWind.ts";
export { agreementsOf } from "./judge/agreements.ts";
export { tackGapDeviation } from "./judge/tackGap.ts";
export {
  type ConfoundedGroup,
  confoundedGroups,
  confoundedIn,
  type GroupMember,
} from "./judge/confounded.ts";
export {
  type CompareOptions,
  type Comparison,
  compareFits,
  FALSE_ALARM_LEVEL,
  hasMoved,
  type Move,
  type NamedMove,
  POWER,
} from "./judge/compare.ts";
export { type Comparability, comparability } from "./judge/comparable.ts";
export { EXERCISES, type Exercise, type ExerciseName, type PlannedLeg } from "./judge/plannedLeg.ts";
export { type Plan, type PlanRequest, planOf } from "./judge/plan.ts";
export { channelsChosen, type PlanWishes, planFrom } from "./judge/planFrom.ts";
export { type ComparedCalibrations, type History, historyOf, verdictOf } from "./judge/history.ts";

// report
export { correctedCsvHeader, correctedCsvLine } from "./report/correctedCsv.ts";
export { correctedNmea0183 } from "./report/correctedNmea0183.ts";

// report: tables for the boat's own computer, M65 to M69, words, page
export type * from "./report/answer.ts";
export type { TableRow } from "./report/cells.ts";
export type { Check, RecordingHealth } from "./report/check.ts";
export { checkInFile } from "./report/checkFile.ts";
export { checkPage } from "./report/checkPage.ts";
export type { CheckInFile } from "./report/checkSchema.ts";
export { tablesCsv } from "./report/csv.ts";
export { htmlReport, type ReportInput } from "./report/html.ts";
export { printedSummary } from "./report/summary.ts";
export { printedComparison } from "./report/compareText.ts";
export { type PlanText, printedPlan } from "./report/planText.ts";
export { exerciseWords } from "./report/planWords.ts";
export { type CorrectionTables, correctionTables } from "./report/tables.ts";
export { plainWords } from "./report/words.ts";

// the jobs: from logs to answers
export type { JobRun, LogSource, Progress } from "./job/logSource.ts";
export { UnusableLog } from "./job/readingsOfLog.ts";
export type { LogSteps } from "./job/logSteps.ts";
export { type LogsSummary, mustReadAgain, summariseLogs } from "./job/summariseLogs.ts";
export type { LeaveOut } from "./job/leaveOut.ts";
export { type AnswerOptions, answerInTurns, answerOf, type Calibrated } from "./job/answerOf.ts";
export { calibrateLogs } from "./job/calibrateLogs.ts";
export { calibrationOf } from "./job/calibrationOf.ts";
export { ANSWER_FILES, type AnswerFiles, answerFiles } from "./job/answerFiles.ts";
export { type CorrectedLog, correctedLog } from "./job/correctedLog.ts";

// the whole boat, M120 to M139: sensors one by one, from deliberate exercises, and where each stands
export * from "./sensors/depthSounder.ts";
export * from "./sensors/linearChannel.ts";
export { type StampedTime, stampAgainstGps } from "./recording/stampsAgainstGps.ts";
export {
  type GainAt,
  type LoggedRun,
  type SolvedSpeedSensor,
  SPEED_LAWS,
  type SpeedFromRunsOptions,
  speedFromRuns,
  type SpeedLaw,
} from "./fit/speedFromRuns.ts";
export {
  circleInLog,
  type LoggedCircle,
  type LoggedCircleRefusal,
} from "./fit/circleInLog.ts";
export type { SecondUnderPower } from "./fit/circleBlocks.ts";
export { type RunInLog, runsInLog } from "./fit/runsInLog.ts";
export {
  CIRCLE_REFUSALS,
  type CircleRefusal,
  circleFromBearings,
  type FoundDeviation,
  deviationTable,
  type DeviationToldAt,
  type KnownHeading,
  type KnownHeadingsOptions,
  type SolvedHeadings,
} from "./fit/circleFromBearings.ts";
export {
  type KnownPoint,
  type LinearCalibrationOptions,
  linearCalibration,
  type SolvedChannel,
  type UnsolvedChannel,
} from "./fit/linearCalibration.ts";
export type { SolvedLinearFit } from "./fit/linearFit.ts";
export {
  anemometerAgainstReference,
  type ComparedSpeed,
  REFERENCE_REFUSALS,
  type ReferenceOptions,
  type ReferenceRefusal,
  type SolvedAnemometer,
  type UnsolvedAnemometer,
} from "./fit/anemometerAgainstReference.ts";
export {
  anemometerInCalm,
  CALM_REFUSALS,
  type CalmOptions,
  type CalmRefusal,
  type CalmRun,
  type SolvedCalm,
} from "./fit/anemometerInCalm.ts";
export { type Place, type PositionOffset, positionAtBerth } from "./fit/positionAtBerth.ts";
export {
  type AttitudeZero,
  attitudeZero,
  attitudeZeroByEye,
  type UnsolvedAttitude,
} from "./fit/attitudeZero.ts";
export { type ClockAgainstGps, clockAgainstGps, type UnsolvedClock } from "./fit/clockAgainstGps.ts";
export {
  type EnteredRecord,
  EXERCISE_KINDS,
  type ExerciseKind,
  type ExerciseRecord,
} from "./calibration/boatRecord.ts";
export {
  type Finding,
  type FindingName,
  OTHER_FINDINGS,
  SENSOR_NAMES,
  type SensorName,
  sensorOf,
} from "./calibration/findings.ts";
export {
  enteredFromFile,
  enteredText,
  exerciseRecordFromFile,
  exerciseRecordText,
} from "./calibration/recordFiles.ts";
export { type BoatHistory, boatHistoryOf, NO_HISTORY, settingsInForce } from "./calibration/boatHistory.ts";
export { type Evidence, evidenceIn } from "./judge/evidence.ts";
export {
  type OutOfDate,
  type SensorState,
  type StandingFinding,
  sensorStates,
} from "./judge/sensorStates.ts";
