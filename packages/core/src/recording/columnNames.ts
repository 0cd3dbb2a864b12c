import { type ColumnUnit, siOf, unitsOf, unitWritten } from "./columnUnits.ts";
import type { QuantityName } from "./readings.ts";
import { SIGNAL_K_PATHS } from "./signalKPaths.ts";

/** Which north a header names. */
export type North = "true" | "magnetic";

/** What a column's header says of it. */
export interface ColumnMeaning {
  /** Absent: no quantity that is read. "heading" is one whose north is not told. */
  readonly quantity?: QuantityName | "heading";
  readonly unit?: ColumnUnit;
  /** Whether the header is one of a column that tells the time, the date, or one by UTC. */
  readonly time?: "time" | "date";
  readonly isUtc: boolean;
}

/** In what units Signal K tells: SI and radians, temperatures in kelvin, positions in degrees. */
const SIGNAL_K_UNITS: Partial<Readonly<Record<QuantityName, ColumnUnit>>> = {
  latitude: "deg",
  longitude: "deg",
  waterTemperature: "K",
};

/** The unit in which Signal K tells a quantity. */
const signalKUnit = (quantity: QuantityName): ColumnUnit | undefined =>
  SIGNAL_K_UNITS[quantity] ?? unitsOf(quantity).find((unit) => siOf(unit).factor === 1);

/** Paths of Signal K as headers write them, those of parts with the part's name behind: `navigation.attitude.roll`. */
const SIGNAL_K_HEADERS: ReadonlyMap<string, QuantityName> = new Map(
  [...SIGNAL_K_PATHS].flatMap(([path, { parts }]) =>
    parts.map(({ quantity, property }) => [property ? `${path}.${property}` : path, quantity] as const),
  ),
);

/** The names of quantities: trade terms, in small letters, words apart. */
const NAMES: Readonly<Record<string, QuantityName | "heading">> = {
  awa: "apparentWindAngle",
  "apparent wind angle": "apparentWindAngle",
  "relative wind angle": "apparentWindAngle",
  aws: "apparentWindSpeed",
  "apparent wind speed": "apparentWindSpeed",
  "relative wind speed": "apparentWindSpeed",
  twa: "onboardTrueWindAngle",
  "true wind angle": "onboardTrueWindAngle",
  tws: "onboardTrueWindSpeed",
  "true wind speed": "onboardTrueWindSpeed",
  twd: "onboardTrueWindDirection",
  "true wind direction": "onboardTrueWindDirection",
  stw: "speedThroughWater",
  "speed through water": "speedThroughWater",
  "speed through the water": "speedThroughWater",
  "boat speed": "speedThroughWater",
  boatspeed: "speedThroughWater",
  "water speed": "speedThroughWater",
  heading: "heading",
  hdg: "heading",
  hdm: "headingMagnetic",
  compass: "headingMagnetic",
  "compass heading": "headingMagnetic",
  hdt: "headingTrue",
  variation: "variation",
  "magnetic variation": "variation",
  heel: "heel",
  "heel angle": "heel",
  roll: "heel",
  "roll angle": "heel",
  pitch: "pitch",
  "pitch angle": "pitch",
  rot: "rateOfTurn",
  "rate of turn": "rateOfTurn",
  cog: "courseOverGround",
  "course over ground": "courseOverGround",
  "course over the ground": "courseOverGround",
  sog: "speedOverGround",
  "speed over ground": "speedOverGround",
  "speed over the ground": "speedOverGround",
  lat: "latitude",
  latitude: "latitude",
  lon: "longitude",
  long: "longitude",
  longitude: "longitude",
  "depth below transducer": "depthBelowTransducer",
  "water temperature": "waterTemperature",
  "distance through water": "distanceThroughWater",
};

/** Directions, as the two norths make them; a course is the receiver's own and true unless said otherwise. */
const BY_NORTH: Readonly<Record<string, Readonly<Record<North, QuantityName>>>> = {
  heading: { true: "headingTrue", magnetic: "headingMagnetic" },
  courseOverGround: { true: "courseOverGround", magnetic: "courseOverGroundMagnetic" },
  onboardTrueWindDirection: {
    true: "onboardTrueWindDirection",
    magnetic: "onboardTrueWindDirectionMagnetic",
  },
};

/** NMEA 0183 has T and M for the two norths. */
const NORTHS: Readonly<Record<string, North>> = {
  true: "true",
  t: "true",
  magnetic: "magnetic",
  mag: "magnetic",
  m: "magnetic",
};

const TIME_NAMES: Readonly<Record<string, "time" | "date">> = {
  time: "time",
  t: "time",
  timestamp: "time",
  "time stamp": "time",
  datetime: "time",
  "date time": "time",
  "date and time": "time",
  "": "time",
  epoch: "time",
  "epoch time": "time",
  "unix time": "time",
  "gps time": "time",
  "time of day": "time",
  "local time": "time",
  clock: "time",
  date: "date",
  day: "date",
};

const UTC_WORDS: ReadonlySet<string> = new Set(["utc", "gmt"]);

/** Words that say how a time is written; the values show that by themselves. */
const TIME_UNITS: ReadonlySet<string> = new Set(["iso", "8601", "s", "sec", "seconds", "ms"]);

/** A header in small words: at marks, brackets and changes from small letters to capitals. */
const wordsOf = (header: string): readonly string[] =>
  header
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase()
    .split(/[^\p{Letter}\p{Number}°º/]+/u)
    .filter((word) => word !== "" && word !== "/");

const named = <Name>(names: Readonly<Record<string, Name>>, words: readonly string[]): Name | undefined => {
  const name = words.join(" ");
  return Object.hasOwn(names, name) ? names[name] : undefined;
};

/** Takes a north off the words, at either end. */
function northIn(words: readonly string[]): { readonly north?: North; readonly rest: readonly string[] } {
  const last = named(NORTHS, words.slice(-1));
  if (words.length > 1 && last) return { north: last, rest: words.slice(0, -1) };
  const first = named(NORTHS, words.slice(0, 1));
  if (words.length > 1 && first && (words[0] ?? "").length > 1) return { north: first, rest: words.slice(1) };
  return { rest: words };
}

/** The quantity that words name, a north among them or not. */
function quantityIn(words: readonly string[]): QuantityName | "heading" | undefined {
  const plain = named(NAMES, words);
  if (plain) return plain;
  const { north, rest } = northIn(words);
  const direction = named(NAMES, rest);
  return north && direction ? BY_NORTH[direction]?.[north] : undefined;
}

/** Whether values of a quantity can be in a unit. */
const fits = (quantity: QuantityName | "heading", unit: ColumnUnit): boolean =>
  unitsOf(quantity === "heading" ? "headingTrue" : quantity).includes(unit);

/** A quantity and its unit, of one word or two (`m_s`), the unit standing last or, as in `heading (deg true)`, before the north. */
function quantityAndUnit(words: readonly string[]): Pick<ColumnMeaning, "quantity" | "unit"> {
  const whole = quantityIn(words);
  if (whole) return { quantity: whole };
  for (const length of [2, 1])
    for (const place of [words.length - length, words.length - length - 1]) {
      const unit = place > 0 ? unitWritten(words.slice(place, place + length).join("/")) : undefined;
      const quantity = unit && quantityIn(words.toSpliced(place, length));
      if (quantity && fits(quantity, unit)) return { quantity, unit };
    }
  return {};
}

/**
 * What a column's header says of it: a trade term for a quantity, with the unit and the north behind it, in brackets or not
 * (`stw_kn`, `AWA [deg]`, `boat speed (kn)`, `heading_mag_deg`), a path of Signal K, or a word for the time. Never throws.
 */
export function columnMeaning(header: string): ColumnMeaning {
  const told = SIGNAL_K_HEADERS.get(header.trim());
  const unit = told && signalKUnit(told);
  if (told) return { quantity: told, ...(unit ? { unit } : {}), isUtc: false };
  const words = wordsOf(header);
  const isUtc = words.some((word) => UTC_WORDS.has(word));
  const time = named(
    TIME_NAMES,
    words.filter((word) => !UTC_WORDS.has(word) && !TIME_UNITS.has(word)),
  );
  if (time && words.length > 0) return { time, isUtc };
  return { ...quantityAndUnit(words), isUtc };
}

/** The unit that a cell of a line below the header names; undefined where it names none. Never throws. */
export const unitInCell = (cell: string): ColumnUnit | undefined =>
  unitWritten(
    cell
      .trim()
      .toLowerCase()
      .replace(/^[[(]|[\])]$/g, ""),
  );
