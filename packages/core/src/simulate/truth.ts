/** What was true in a simulated sail, once a second, and what the instruments put out before rounding and mishaps. */
export const TRUTH_COLUMNS = [
  "time", // s since 1970 UTC
  "groundWindDirection", // rad, true north, from; at the masthead
  "groundWindSpeed", // m/s
  "waterWindDirection",
  "waterWindSpeed",
  "apparentAngle", // rad, (−π, π], level, the masthead at rest
  "apparentSpeed", // m/s
  "speed", // m/s, along the boat through the water
  "heading", // rad, true
  "heel", // rad, positive to starboard
  "leeway", // rad, positive to starboard
  "currentEast", // m/s
  "currentNorth",
  "sails", // 0 down, 1 up and trimmed
  "motoring", // 1 with sails down under power, else 0
  "turning", // 1 while the helm is over for a tack, a gybe, a rounding or a circle, else 0
  "loggedAwa", // rad
  "loggedAws", // m/s
  "loggedStw",
  "loggedHeading",
  "loggedHeel",
  "loggedEast",
  "loggedNorth",
] as const;

/** One of the columns of the truth. */
export type TruthColumn = (typeof TRUTH_COLUMNS)[number];

/** What was true in a simulated sail, by columns of equal length. */
export interface Truth {
  /** How many rows, one a second. */
  readonly length: number;
  /** rad, east positive, at the start. */
  readonly variation: number;
  readonly columns: Readonly<Record<TruthColumn, Float64Array>>;
}

/** Columns of so many rows by their names. */
export function columnsNamed<Name extends string>(
  names: readonly Name[],
  length: number,
): Record<Name, Float64Array> {
  const columns: Partial<Record<Name, Float64Array>> = {};
  for (const name of names) columns[name] = new Float64Array(length).fill(Number.NaN);
  return columns as Record<Name, Float64Array>;
}
