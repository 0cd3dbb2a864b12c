import type { ParameterName } from "../sensors/parameterNames.ts";
import type { SensorSettings } from "../sensors/parameters.ts";

/** Channels that the recording as a whole offers; a row that lacks one of these is left out where it is needed. */
export interface RecordingChannels {
  readonly compass: boolean;
  readonly paddle: boolean;
  readonly gps: boolean;
  readonly heel: boolean;
}

/** What is known about the boat besides its rows. */
export interface FitContext {
  /** Sign of the heel sensor's installation; "auto": found from the wind. */
  readonly heelSign: "auto" | 1 | -1;
  /** How she was steered upwind; a boat steered to the displayed angle proves nothing by being symmetric. */
  readonly steeredBy: "sails" | "display" | "unknown";
  /** Whether leeway = coefficient · heel / speed² can hold for this rig and hull. */
  readonly leewayLawHolds: boolean;
  /** Settings to start from, in the base of the rows; defaults to the priors' means. */
  readonly start?: SensorSettings;
  /** Ask whether symmetry of sailing may be used at all; default true. */
  readonly symmetry?: boolean;
  /** Whether the laws of leeway, deviation and paddle wheel are taken at their word (M29); default false: a little is left free. */
  readonly lawsExact?: boolean;
  /** Parameters that stay at their priors' means, whatever the rows say; none unless told. */
  readonly held?: readonly ParameterName[];
  readonly signal?: AbortSignal;
}
