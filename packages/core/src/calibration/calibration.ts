import type { LineCount, Source } from "../recording/readings.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { ActiveSettings, Boat } from "./boat.ts";

/** One parameter of the total settings, as data and prior together left it; SI and radians. */
export interface CalibratedParameter {
  readonly name: ParameterName;
  readonly value: number;
  readonly sd: number;
  readonly priorMean: number;
  readonly priorSd: number;
  /** 1 − (sd / priorSd)²: the share of the knowledge that came from the data. */
  readonly informed: number;
}

/** How the wind of the recording wandered; rad, s and natural logarithms of speed. */
export interface CalibratedWander {
  readonly slowDirection: number;
  readonly slowLogSpeed: number;
  readonly fastDirection: number;
  readonly fastLogSpeed: number;
  readonly fastSeconds: number;
}

/** The solved fit behind a calibration, in the shape in which fits answer. */
export interface CalibrationFit {
  readonly status: "solved";
  /** The total: settings that undo the faults, counted from the base. */
  readonly settings: SensorSettings;
  readonly parameters: readonly CalibratedParameter[];
  /** Posterior covariance of `parameters`, row-major n × n. */
  readonly covariance: Float64Array;
  readonly wander: CalibratedWander;
  readonly rows: number;
  /** Start times of the rows held to be outliers, s since 1970 UTC. */
  readonly outliers: readonly number[];
  readonly notes: readonly string[];
}

export const AGREEMENT_KINDS = [
  "direction between tacks",
  "direction upwind against downwind",
  "speed between tacks",
] as const;

/** One of the three agreements: rad, or the logarithm of a ratio of speeds; NaN where there was none. */
export interface CalibratedAgreement {
  readonly kind: (typeof AGREEMENT_KINDS)[number];
  readonly value: number;
  readonly sd: number;
  readonly contrasts: number;
}

type Three = readonly [CalibratedAgreement, CalibratedAgreement, CalibratedAgreement];

/** The log that a calibration was made from. */
export interface CalibratedRecording {
  readonly files: readonly string[];
  /** s since 1970 UTC. */
  readonly start: number;
  readonly end: number;
  readonly lines: LineCount;
  readonly chosen: readonly { readonly source: Source; readonly why: string; readonly rate: number }[];
  readonly directionsAre: "true" | "magnetic";
}

/** Everything that a calibration file holds. The increment is not stored here: it is total less active. */
export interface Calibration {
  /** When it was made, s since 1970 UTC. */
  readonly made: number;
  readonly boat: Boat;
  readonly recording: CalibratedRecording;
  /** What was active while the recording was made. */
  readonly settings: ActiveSettings;
  readonly fit: CalibrationFit;
  readonly before: Three;
  readonly after: Three;
  readonly notes: readonly string[];
}
