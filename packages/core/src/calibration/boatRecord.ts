import type { SensorSettings } from "../sensors/parameters.ts";
import type { ActiveSettings } from "./boat.ts";
import type { Finding, SensorName } from "./findings.ts";

/**
 * The deliberate exercises, in the order of the work.
 *
 * @example
 * EXERCISE_KINDS[0] // "runs"
 */
export const EXERCISE_KINDS = [
  "runs",
  "circle",
  "dock",
  "calm",
  "anemometer",
  "depth",
  "temperature",
  "channel",
  "berth",
  "clock",
] as const;

/** The deliberate exercises that settle a sensor by itself. */
export type ExerciseKind = (typeof EXERCISE_KINDS)[number];

/** What an exercise found, kept with what it was made from; times are s since 1970 UTC, angles rad, all else SI. */
export interface ExerciseRecord {
  readonly exercise: ExerciseKind;
  /** When it was sailed, and when it was worked out; s since 1970 UTC. */
  readonly at: number;
  readonly made: number;
  readonly madeFrom: readonly string[];
  /** The form that was filled in, word for word; empty where a log was all. */
  readonly given: string;
  /** What was active in the instruments. */
  readonly settings: ActiveSettings;
  readonly findings: readonly Finding[];
  /** The settings in all if this is keyed in and nothing else; undefined where it has no place among them. */
  readonly total?: SensorSettings;
  /** Sensors whose readings had to be taken as right. */
  readonly restsOn: readonly SensorName[];
  readonly notes: readonly string[];
}

/** What was keyed into the instruments, and since when it stands there, s since 1970 UTC. */
export interface EnteredRecord {
  readonly at: number;
  readonly made: number;
  readonly madeFrom: readonly string[];
  /** What is active from then on. */
  readonly settings: ActiveSettings;
}
