import type { LineCount, Source } from "../recording/readings.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { ActiveSettings, Boat } from "./boat.ts";

/** One parameter of the total settings, as data and prior together left it; SI and radians. */
export interface FittedParameter {
  readonly name: ParameterName;
  readonly value: number;
  readonly sd: number;
  readonly priorMean: number;
  readonly priorSd: number;
  /** 1 − (sd / priorSd)²: the share of the knowledge that came from the data. */
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

/** A fit that the data could answer: what a calibration is made from. */
export interface SolvedBoatFit {
  readonly status: "solved";
  /** The total: settings that undo the faults, counted from the base. */
  readonly settings: SensorSettings;
  readonly parameters: readonly FittedParameter[];
  /** Posterior covariance of `parameters`, row-major n × n. */
  readonly covariance: Float64Array;
  readonly wander: WanderScales;
  readonly rows: number;
  /** Start times of the rows that the robust weights hold to be outliers (weight below 0.5), s since 1970 UTC. */
  readonly outliers: readonly number[];
  /** What stood in for what was missing, and what was refused: each a plain sentence. */
  readonly notes: readonly string[];
  /** What symmetry of sailing did for the masthead offset, where it was used; a file does not keep it. */
  readonly symmetry?: SymmetryShare;
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
  /** Standard error, wander of the wind included. */
  readonly sd: number;
  /** Contrasts (tacks, gybes, mark roundings) that it rests on. */
  readonly contrasts: number;
}

export type Agreements = readonly [Agreement, Agreement, Agreement];

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
  readonly fit: SolvedBoatFit;
  readonly before: Agreements;
  readonly after: Agreements;
  readonly notes: readonly string[];
}
