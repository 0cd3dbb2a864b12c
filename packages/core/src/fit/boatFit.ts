import { PARAMETER_NAMES, type ParameterName } from "../sensors/parameterNames.ts";
import type { SensorSettings } from "../sensors/parameters.ts";

export { PARAMETER_NAMES, type ParameterName };

/** One parameter as the data and the prior together leave it. */
export interface FittedParameter {
  readonly name: ParameterName;
  readonly value: number;
  readonly sd: number;
  readonly priorMean: number;
  readonly priorSd: number;
  /** 1 − (sd / priorSd)², within [0, 1]: the share of the knowledge that came from the data. */
  readonly informed: number;
}

/** How the wind was found to wander, per recording. */
export interface WanderScales {
  /** Random walk of direction: rad per √s; of log speed: 1 per √s. */
  readonly slowDirection: number;
  readonly slowLogSpeed: number;
  /** Turbulence about it, sd (rad; 1), with its time scale (s). */
  readonly fastDirection: number;
  readonly fastLogSpeed: number;
  readonly fastSeconds: number;
}

/** What stood in for what was missing, and what was refused: each a plain sentence. */
export type Note = string;

export interface SolvedBoatFit {
  readonly status: "solved";
  /** Settings that undo the faults, counted from the base that the recording was made on. */
  readonly settings: SensorSettings;
  readonly parameters: readonly FittedParameter[];
  /** Posterior covariance of `parameters`, row-major n × n. */
  readonly covariance: Float64Array;
  readonly wander: WanderScales;
  readonly rows: number;
  /** Rows that the robust weights hold to be outliers (weight < 0.5): start times, s since 1970. */
  readonly outliers: readonly number[];
  readonly notes: readonly Note[];
}

/** Data that cannot answer: no values, no standard deviations, but a reason. */
export interface UnsolvedBoatFit {
  readonly status: "unsolved";
  /** A sentence for the navigator. */
  readonly reason: string;
  readonly confounded: readonly ParameterName[];
  readonly notes: readonly Note[];
}

export type BoatFit = SolvedBoatFit | UnsolvedBoatFit;
