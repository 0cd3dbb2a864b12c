import type { QuantityName } from "../recording/readings.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { Metres, Radians } from "../units.ts";

/** What settings are counted from. */
export type SettingsBase = "sensors without corrections" | "unknown corrections";

/** The corrections that the instruments had already applied to what a log holds, counted from the base. */
export interface ActiveSettings {
  readonly base: SettingsBase;
  readonly active: SensorSettings;
}

/**
 * Where the computer's wind table sits: corrections looked up by apparent or by true wind, or no table at all.
 *
 * @example
 * TABLE_PLACES.includes("apparent") // true
 */
export const TABLE_PLACES = ["apparent", "true", "none"] as const;

/** What the computer on board does with the readings before it shows a true wind. */
export interface OnboardComputer {
  readonly correctsHeel: boolean;
  readonly correctsLeeway: boolean;
  readonly table: (typeof TABLE_PLACES)[number];
}

/**
 * What is keyed in, each with the unit of its step in the boat file.
 *
 * @example
 * STEP_NAMES.includes("masthead_offset_deg") // true
 */
export const STEP_NAMES = [
  "boat_speed_intercept_kn",
  "boat_speed_gain_percent",
  "compass_alignment_deg",
  "heel_zero_deg",
  "leeway_coefficient",
  "masthead_offset_deg",
  "wind_speed_threshold_kn",
  "wind_speed_gain_percent",
  "wind_angle_table_deg",
  "wind_speed_table_kn",
] as const;

/** One of STEP_NAMES. */
export type StepName = (typeof STEP_NAMES)[number];

/**
 * The name of a boat whose file gives none.
 *
 * @example
 * UNKNOWN_BOAT.name === WITHOUT_NAME // true
 */
export const WITHOUT_NAME = "boat without a name";

/** What makes leeway something else than a coefficient times heel over speed squared. */
export interface Rig {
  readonly rotatingMast: boolean;
  readonly cantingKeel: boolean;
  readonly foils: boolean;
  readonly multihull: boolean;
}

/**
 * Whether the helm followed the sails or a displayed wind angle: only the former makes angles alike on both tacks.
 *
 * @example
 * STEERED_BY.includes(UNKNOWN_BOAT.steeredBy) // true
 */
export const STEERED_BY = ["sails", "display", "unknown"] as const;

/** What the boat file tells, in SI units and radians. */
export interface Boat {
  readonly name: string;
  /** Of the masthead above the water. */
  readonly mastHeight: Metres;
  /** Place of the wind sensor above the axis that the boat rolls about, and forward of the one it pitches about. */
  readonly windSensorHeight: Metres;
  readonly windSensorForward: Metres;
  readonly computer: OnboardComputer;
  /** "assumed": the boat file does not tell of a computer, or there is none. */
  readonly computerIs: "given" | "assumed";
  /** The steps in which the instruments take numbers, in the units of their names; those that are not given are assumed. */
  readonly steps?: Partial<Readonly<Record<StepName, number>>>;
  readonly rig: Rig;
  /** A tag for the sails set: upwash depends on them. */
  readonly sails: string;
  readonly steeredBy: (typeof STEERED_BY)[number];
  readonly settings: ActiveSettings;
  /** rad, east positive, where the log holds no position; NaN when not given. */
  readonly variation: Radians;
  /** +1 where heel to starboard reads positive; "auto" infers it from the wind. */
  readonly heelSensorSign: "auto" | 1 | -1;
  /** Sources that the user chose over the automatic choice. */
  readonly sources: Partial<Readonly<Record<QuantityName, string>>>;
}

/**
 * The reasons for which the leeway law does not hold for a rig, as words for a sentence; empty when it holds.
 *
 * @returns words. Never throws.
 * @example
 * leewayLawBreakers({ ...UNKNOWN_BOAT.rig, foils: true }) // ["foils"]
 */
export function leewayLawBreakers(rig: Rig): readonly string[] {
  const reasons: readonly (readonly [boolean, string])[] = [
    [rig.rotatingMast, "a rotating mast"],
    [rig.cantingKeel, "a canting keel"],
    [rig.foils, "foils"],
    [rig.multihull, "more than one hull"],
  ];
  return reasons.flatMap(([holds, words]) => (holds ? [words] : []));
}
