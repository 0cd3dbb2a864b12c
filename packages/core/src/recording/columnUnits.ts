import { METRES_PER_SECOND_IN_A_KNOT, radians } from "../units.ts";
import { METRES_IN_A_FATHOM, METRES_IN_A_FOOT, METRES_IN_A_NAUTICAL_MILE } from "./boatDecoders.ts";
import type { QuantityName } from "./readings.ts";
import { KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND, METRES_IN_A_STATUTE_MILE } from "./windDecoders.ts";

/** What a quantity is measured in. */
type Dimension = "angle" | "speed" | "turning" | "length" | "temperature";

interface ColumnUnitTraits {
  readonly dimension: Dimension;
  /** SI value = (written − zero) × factor. */
  readonly factor: number;
  readonly zero?: number;
  /** How headers write it, in small letters. */
  readonly written: readonly string[];
}

const DEGREE = radians(1);

/** M111. The units that columns may be in: as the mapping file names them, in SI units, and as headers write them. */
const UNITS = {
  deg: { dimension: "angle", factor: DEGREE, written: ["deg", "degs", "degree", "degrees", "°", "º"] },
  rad: { dimension: "angle", factor: 1, written: ["rad", "rads", "radian", "radians"] },
  kn: {
    dimension: "speed",
    factor: METRES_PER_SECOND_IN_A_KNOT,
    written: ["kn", "kt", "kts", "knot", "knots"],
  },
  "m/s": { dimension: "speed", factor: 1, written: ["m/s", "m/sec", "mps", "ms"] },
  "km/h": {
    dimension: "speed",
    factor: 1 / KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND,
    written: ["km/h", "kmh", "kph", "km/hr"],
  },
  mph: { dimension: "speed", factor: METRES_IN_A_STATUTE_MILE / 3600, written: ["mph"] },
  "deg/s": { dimension: "turning", factor: DEGREE, written: ["deg/s", "°/s", "deg/sec", "dps"] },
  "deg/min": { dimension: "turning", factor: DEGREE / 60, written: ["deg/min", "°/min"] },
  "rad/s": { dimension: "turning", factor: 1, written: ["rad/s"] },
  m: { dimension: "length", factor: 1, written: ["m", "metre", "metres", "meter", "meters"] },
  ft: { dimension: "length", factor: METRES_IN_A_FOOT, written: ["ft", "foot", "feet"] },
  fathoms: { dimension: "length", factor: METRES_IN_A_FATHOM, written: ["fathom", "fathoms"] },
  km: { dimension: "length", factor: 1000, written: ["km"] },
  nmi: { dimension: "length", factor: METRES_IN_A_NAUTICAL_MILE, written: ["nmi", "nm"] },
  "°C": { dimension: "temperature", factor: 1, written: ["c", "°c", "degc", "celsius"] },
  "°F": { dimension: "temperature", factor: 5 / 9, zero: 32, written: ["f", "°f", "degf", "fahrenheit"] },
  K: { dimension: "temperature", factor: 1, zero: 273.15, written: ["k", "kelvin"] },
} as const satisfies Readonly<Record<string, ColumnUnitTraits>>;

/** A unit that a column may be in (M111). */
export type ColumnUnit = keyof typeof UNITS;

const isUnit = (name: string): name is ColumnUnit => Object.hasOwn(UNITS, name);

export const COLUMN_UNITS: readonly ColumnUnit[] = Object.keys(UNITS).filter(isUnit);

/** What is no angle. */
const DIMENSIONS: Partial<Readonly<Record<QuantityName, Dimension>>> = {
  apparentWindSpeed: "speed",
  onboardTrueWindSpeed: "speed",
  speedThroughWater: "speed",
  speedOverGround: "speed",
  rateOfTurn: "turning",
  depthBelowTransducer: "length",
  transducerOffset: "length",
  distanceThroughWater: "length",
  waterTemperature: "temperature",
};

const dimensionOf = (quantity: QuantityName): Dimension => DIMENSIONS[quantity] ?? "angle";

/** The units that a quantity may be in, the usual ones first. */
export const unitsOf = (quantity: QuantityName): readonly ColumnUnit[] =>
  COLUMN_UNITS.filter((unit) => UNITS[unit].dimension === dimensionOf(quantity));

/** The unit that a word of a header means, where it is one; undefined else. Never throws. */
export const unitWritten = (word: string): ColumnUnit | undefined =>
  COLUMN_UNITS.find((unit) => UNITS[unit].written.some((written: string) => written === word));

/** Factor and zero by which values in a unit become SI: (value − zero) × factor. */
export function siOf(unit: ColumnUnit): { readonly factor: number; readonly zero: number } {
  const traits: ColumnUnitTraits = UNITS[unit];
  return { factor: traits.factor, zero: traits.zero ?? 0 };
}

export const isAngle = (quantity: QuantityName): boolean => dimensionOf(quantity) === "angle";
