import type { LineCount, Source } from "../recording/readings.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { ActiveSettings, Boat } from "./boat.ts";

/** One parameter of the total settings, as data and prior together left it; SI and radians. */
export interface FittedParameter {
  readonly name: ParameterName;
  /** What data and prior together say, in the unit of the parameter, SI and radians. */
  readonly value: number;
  /** Standard deviation of its error, the priors in doubt too (M184), in the unit of the parameter, SI and radians. */
  readonly sd: number;
  /** Mean of the prior, in the unit of the parameter, SI and radians. */
  readonly priorMean: number;
  /** Standard deviation of the prior, in the unit of the parameter, SI and radians. */
  readonly priorSd: number;
  /** 1 − variance under the prior / priorSd²: the share of the knowledge that came from the data. */
  readonly informed: number;
}

/** How the wind was found to wander, per recording. */
export interface WanderScales {
  /** Random walk of direction: rad per √s; of log speed: 1 per √s. */
  readonly slowDirection: number;
  /** Random walk of the logarithm of speed: 1 per √s. */
  readonly slowLogSpeed: number;
  /** Turbulence about it, sd (rad; 1), with its time scale (s). */
  readonly fastDirection: number;
  /** Turbulence of the logarithm of speed, sd: a share. */
  readonly fastLogSpeed: number;
  /** Time scale of the turbulence, s. */
  readonly fastSeconds: number;
}

/** A fit that the data could answer: what a calibration is made from. */
export interface SolvedBoatFit {
  readonly status: "solved";
  /** The total: settings that undo the faults, counted from the base. */
  readonly settings: SensorSettings;
  readonly parameters: readonly FittedParameter[];
  /** Posterior covariance of `parameters` under the priors, which intervals doubt besides (`errorCovariance`, M184), in the products of their units, row-major n × n. */
  readonly covariance: Float64Array;
  readonly wander: WanderScales;
  /** How many rows it rests on. */
  readonly rows: number;
  /** Start times of the rows that the robust weights hold to be outliers (weight below 0.5), s since 1970 UTC. */
  readonly outliers: readonly number[];
  /** What stood in for what was missing, and what was refused: each a plain sentence. */
  readonly notes: readonly string[];
  /** What symmetry of sailing did for the masthead offset, where it was used; a file does not keep it. */
  readonly symmetry?: SymmetryShare;
  /** Absent where leeway was left out, or nothing told the motion that it shows in. */
  readonly leewayByTack?: LeewayByTack;
}

/** A number that follows from a fit, with its certainty; SI and radians. */
export interface ToldNumber {
  readonly value: number;
  readonly sd: number;
  /** 1 − (sd / prior's)²: the share of the knowledge that came from the data. */
  readonly informed: number;
}

/** M189. The leeway coefficient of each tack (m²/s²), and by which share of their mean starboard's is more than port's. */
export interface LeewayByTack {
  readonly starboard: ToldNumber;
  readonly port: ToldNumber;
  readonly difference: ToldNumber;
}

/** The masthead offset as it would be without symmetry of sailing (M53), and what more days would do for it (M56); rad. */
export interface SymmetryShare {
  readonly days: number;
  readonly without: { readonly value: number; readonly sd: number };
  /** The standard deviation that so many days in all would bring. */
  readonly withDays: { readonly days: number; readonly sd: number };
}

/**
 * The three agreements, in the order in which they are told.
 *
 * @example
 * answer.before.map(({ kind }) => kind) // [...AGREEMENT_KINDS]
 */
export const AGREEMENT_KINDS = [
  "direction between tacks",
  "direction upwind against downwind",
  "speed between tacks",
] as const;

/** One of the three agreements: how far the true wind disagrees with itself. */
export interface Agreement {
  readonly kind: (typeof AGREEMENT_KINDS)[number];
  /** rad (starboard less port; upwind less downwind), or ln of the speed ratio starboard / port; NaN: none. */
  readonly value: number;
  /** Standard error, wander of the wind included, in the unit of `value`. */
  readonly sd: number;
  /** How many contrasts (tacks, gybes, mark roundings) it rests on. */
  readonly contrasts: number;
}

/** The three agreements, in the order of AGREEMENT_KINDS. */
export type Agreements = readonly [Agreement, Agreement, Agreement];

/** The log that a calibration was made from. */
export interface CalibratedRecording {
  readonly files: readonly string[];
  /** s since 1970 UTC. */
  readonly start: number;
  /** s since 1970 UTC. */
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
  readonly fit: SolvedBoatFit;
  readonly before: Agreements;
  readonly after: Agreements;
  readonly notes: readonly string[];
}
