import type { CorrectedSecond } from "../sailing/correctedSeconds.ts";
import { degrees, knots } from "../units.ts";

type Value = Exclude<keyof CorrectedSecond, "time">;

/** Columns in their order; a direction's name says where it counts from magnetic north. */
const COLUMNS: readonly (readonly [value: Value, name: string, unit: "deg" | "kn", isDirection: boolean])[] =
  [
    ["twd", "twd", "deg", true],
    ["tws", "tws", "kn", false],
    ["twa", "twa", "deg", false],
    ["gwd", "gwd", "deg", true],
    ["gws", "gws", "kn", false],
    ["awa", "awa", "deg", false],
    ["aws", "aws", "kn", false],
    ["stw", "stw", "kn", false],
    ["heading", "heading", "deg", true],
    ["heel", "heel", "deg", false],
    ["leeway", "leeway", "deg", false],
    ["set", "set", "deg", true],
    ["drift", "drift", "kn", false],
  ];

/** A hundredth of a degree or knot: below what any of these sensors resolves. */
const DECIMALS = 2;

/**
 * The header line of the corrected log, `time,twd_deg,tws_kn,…`, or `twd_mag_deg` where north is magnetic. Never throws.
 *
 * @example
 * correctedCsvHeader("true").startsWith("time,twd_deg,tws_kn,twa_deg") // true
 */
export const correctedCsvHeader = (directionsAre: "true" | "magnetic"): string => {
  const north = (isDirection: boolean): string => (isDirection && directionsAre === "magnetic" ? "_mag" : "");
  const names = COLUMNS.map(([, name, unit, isDirection]) => `${name}${north(isDirection)}_${unit}`);
  return `${["time", ...names].join(",")}\n`;
};

function written(value: number, unit: "deg" | "kn", isDirection: boolean): string {
  if (!Number.isFinite(value)) return "";
  const text = (unit === "deg" ? degrees(value) : knots(value)).toFixed(DECIMALS);
  // what rounds to a whole turn is north, and what rounds to nothing has no sign
  if (isDirection && text === "360.00") return "0.00";
  return text === "-0.00" ? "0.00" : text;
}

/**
 * One line of the corrected log: the time in ISO 8601, UTC; degrees and knots; nothing between the commas where a value
 * is missing.
 *
 * @throws RangeError where the time is none
 * @example
 * const has = { paddle: true, compass: true, heel: true };
 * const [second] = correctedSeconds(block, { settings: noCorrections, boat, has, directionsAre: "true", isMotoring: () => false });
 * correctedCsvLine(second).split(",").length === correctedCsvHeader("true").split(",").length // true
 */
export function correctedCsvLine(second: CorrectedSecond): string {
  const time = new Date(second.time * 1000).toISOString().replace(".000Z", "Z");
  const values = COLUMNS.map(([value, , unit, isDirection]) => written(second[value], unit, isDirection));
  return `${[time, ...values].join(",")}\n`;
}
