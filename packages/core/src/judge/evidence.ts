import type { ActiveSettings } from "../calibration/boat.ts";
import type { BoatHistory } from "../calibration/boatHistory.ts";
import type { ExerciseKind } from "../calibration/boatRecord.ts";
import type { Calibration, SolvedBoatFit } from "../calibration/calibration.ts";
import {
  type Finding,
  type FindingName,
  type SensorName,
  sensorOf,
  TYPICAL_READINGS,
} from "../calibration/findings.ts";
import { doubtOfLine } from "../fit/deficitPrior.ts";
import { errorCovariance } from "../fit/doubtOfPriors.ts";
import type { Seconds } from "../units.ts";
import { FACTOR_PAIRS, findingMoves, typicalFactor } from "./findingMoves.ts";

/** Something that found numbers of sensors: a calibration from logs, or an exercise. */
export interface Evidence {
  /** The name of its file. */
  readonly file: string;
  readonly kind: "calibration" | ExerciseKind;
  /** When it was sailed. */
  readonly at: Seconds;
  /** What was active in the instruments. */
  readonly settings: ActiveSettings;
  readonly findings: readonly Finding[];
  /** The sensors that had to be taken as right to find something of one. */
  readonly restsOn: (sensor: SensorName) => readonly SensorName[];
  /** By how much a number moves for each unit by which another is found otherwise (M136); absent where only the sensors are known, as of an exercise. */
  readonly moves?: (name: FindingName, by: FindingName) => number;
  /** What was reckoned with for a number, learnt or not; absent where that is what was found, or stood in the instruments. */
  readonly believed?: (name: FindingName) => Pick<Finding, "value" | "half"> | undefined;
}

/** Above this informed share a calibration's number comes from its data more than from what is usual. */
const LEARNT = 0.5;

const HALF_WIDTH_95 = 1.96;

/** M136. What each sensor rests on in a calibration from logs, each using those before it. */
const IN_A_CALIBRATION: Partial<Readonly<Record<SensorName, readonly SensorName[]>>> = {
  compass: ["boat speed"],
  leeway: ["boat speed", "compass", "heel"],
  "wind speed": ["boat speed", "compass", "heel", "leeway"],
  "wind angle": ["boat speed", "compass", "heel", "leeway", "wind speed"],
};

/**
 * M138. The logarithm of truth over reading at a reading, with half the 95 % interval that intercept and gain together leave, and of a paddle wheel what a straight line
 * misses of it (M190).
 *
 * @returns undefined where the data told neither. Never throws.
 */
export function factorAt(
  fit: SolvedBoatFit,
  sensor: keyof typeof FACTOR_PAIRS,
  reading: number,
): { readonly value: number; readonly half: number } | undefined {
  const { parameters } = fit;
  const [i, j] = FACTOR_PAIRS[sensor].map((wanted) => parameters.findIndex(({ name }) => name === wanted));
  const [intercept, gain] = [parameters[i!], parameters[j!]];
  if (!intercept || !gain || !(Math.max(intercept.informed, gain.informed) >= LEARNT)) return undefined;
  const { value, slopes } = typicalFactor(intercept.value, gain.value, reading);
  const [size, covariance] = [parameters.length, errorCovariance(fit)];
  const speed = Math.exp(value) * reading;
  const bent = sensor === "speed" ? doubtOfLine(speed) / speed : 0;
  const variance =
    bent ** 2 +
    slopes[0] ** 2 * covariance[i! * size + i!]! +
    2 * slopes[0] * slopes[1] * covariance[i! * size + j!]! +
    slopes[1] ** 2 * covariance[j! * size + j!]!;
  return { value, half: HALF_WIDTH_95 * Math.sqrt(variance) };
}

/** M138. Truth over reading at the typical readings. */
const typicalFindings = (fit: SolvedBoatFit): readonly Finding[] =>
  (["speed", "anemometer"] as const).flatMap((sensor): readonly Finding[] => {
    const found = factorAt(fit, sensor, TYPICAL_READINGS[sensor]);
    return found ? [{ name: `${sensor}.atTypical`, ...found }] : [];
  });

/** What a calibration found, as evidence. Never throws. */
export const evidenceOfCalibration = (file: string, { recording, settings, fit }: Calibration): Evidence => ({
  file,
  kind: "calibration",
  at: recording.start,
  settings,
  findings: [
    ...typicalFindings(fit),
    ...fit.parameters
      .filter(({ informed }) => informed >= LEARNT)
      .map(({ name, value, sd }) => ({ name, value, half: HALF_WIDTH_95 * sd })),
  ],
  restsOn: (sensor) => IN_A_CALIBRATION[sensor] ?? [],
  moves: findingMoves(fit),
  believed: (wanted) => {
    const parameter = fit.parameters.find(({ name }) => name === wanted);
    return parameter && { value: parameter.value, half: HALF_WIDTH_95 * parameter.sd };
  },
});

/**
 * All evidence of a history, in the order in which it was sailed. Never throws.
 *
 * @example
 * evidenceIn(boatHistoryOf([{ file: "a.json", text: calibrationFileText(calibration) }])).map(({ kind }) => kind) // ["calibration"]
 */
export function evidenceIn({ calibrations, exercises }: BoatHistory): readonly Evidence[] {
  const fromLogs = calibrations.map(({ file, calibration }) => evidenceOfCalibration(file, calibration));
  const fromExercises = exercises.map(
    ({ file, record }): Evidence => ({
      file,
      kind: record.exercise,
      at: record.at,
      settings: record.settings,
      findings: record.findings,
      restsOn: (sensor) =>
        record.findings.some(({ name }) => sensorOf(name) === sensor) ? record.restsOn : [],
    }),
  );
  return [...fromLogs, ...fromExercises].sort((one, other) => one.at - other.at);
}
