import { PARAMETER_NAMES, type ParameterName } from "../sensors/parameterNames.ts";
import { metresPerSecond } from "../units.ts";
import { PARAMETER_UNITS } from "./calibrationFile.ts";
import type { EdgeUnit } from "./edgeUnits.ts";

/**
 * The sensors of a boat, in the order in which they are calibrated: each uses some of those before it.
 *
 * @example
 * SENSOR_NAMES[0] // "boat speed"
 */
export const SENSOR_NAMES = [
  "boat speed",
  "compass",
  "heel",
  "pitch",
  "leeway",
  "wind speed",
  "wind angle",
  "depth",
  "water temperature",
  "position",
  "clock",
  "other channels",
] as const;

/** One of SENSOR_NAMES. */
export type SensorName = (typeof SENSOR_NAMES)[number];

/**
 * Numbers that an exercise finds beside the parameters of the boat's wind.
 *
 * @example
 * OTHER_FINDINGS.includes("depth.offset") // true
 */
export const OTHER_FINDINGS = [
  "speed.atTypical", // truth over reading at 6 kn, both tacks' mean, natural logarithm
  "anemometer.atTypical", // likewise at 15 kn of wind
  "pitch.zero", // what a level boat reads, rad
  "depth.offset", // added to the reading to have the depth below the waterline, m
  "temperature.offset", // added to the reading, K
  "position.east", // of the true place, m
  "position.north", // likewise
  "clock.ahead", // of GPS time, s
  "channel.offset", // in the channel's own unit
  "channel.gain", // truth a unit of the reading
] as const;

/** The name of a number that is found of a sensor. */
export type FindingName = ParameterName | (typeof OTHER_FINDINGS)[number];

export const FINDING_NAMES: readonly FindingName[] = [...PARAMETER_NAMES, ...OTHER_FINDINGS];

const OTHER_UNITS: Readonly<Record<(typeof OTHER_FINDINGS)[number], EdgeUnit>> = {
  "speed.atTypical": "ln",
  "anemometer.atTypical": "ln",
  "pitch.zero": "deg",
  "depth.offset": "m",
  "temperature.offset": "°C",
  "position.east": "m",
  "position.north": "m",
  "clock.ahead": "s",
  "channel.offset": "1",
  "channel.gain": "1",
};

/** Units of findings in files. */
export const FINDING_UNITS: Readonly<Record<FindingName, EdgeUnit>> = { ...PARAMETER_UNITS, ...OTHER_UNITS };

/** The readings at which truth over reading is told, so that what intercept and gain make up for between them does not blur it. */
export const TYPICAL_READINGS = { speed: metresPerSecond(6), anemometer: metresPerSecond(15) } as const;

const SENSORS: Readonly<Record<string, SensorName>> = {
  speed: "boat speed",
  compass: "compass",
  heel: "heel",
  heelModel: "heel",
  pitch: "pitch",
  leeway: "leeway",
  anemometer: "wind speed",
  vane: "wind angle",
  depth: "depth",
  temperature: "water temperature",
  position: "position",
  clock: "clock",
};

/**
 * The sensor that a finding is of. Never throws.
 *
 * @example
 * sensorOf("vane.upwash") // "wind angle"
 */
export const sensorOf = (name: FindingName): SensorName =>
  SENSORS[name.slice(0, name.indexOf("."))] ?? "other channels";

/** A number that was found of a sensor, in all: counted from the base of the settings (M28). */
export interface Finding {
  readonly name: FindingName;
  /** Which of the other channels; absent for all else. */
  readonly of?: string;
  /** SI and radians. */
  readonly value: number;
  /** Half its 95 % interval. */
  readonly half: number;
}
