import type { ParameterName } from "../sensors/parameterNames.ts";
import { degrees, knots, METRES_PER_SECOND_IN_A_KNOT } from "../units.ts";
import { HALF_WIDTH_95, plain, signed } from "./format.ts";
import { PARAMETER_WORDS } from "./parameterWords.ts";

/** How an amount of a parameter, or of its change, is printed. */
interface Shape {
  readonly suffix: string;
  readonly decimals: number;
  readonly of: (value: number) => number;
}

const ANGLE: Shape = { suffix: "°", decimals: 1, of: degrees };
const PERCENT: Shape = { suffix: " %", decimals: 1, of: (share) => 100 * share };
const SPEED: Shape = { suffix: " kn", decimals: 2, of: knots };

const SHAPES: Readonly<Record<ParameterName, Shape>> = {
  "speed.intercept": SPEED,
  "speed.gain": PERCENT,
  "speed.gainDifference": PERCENT,
  "compass.a": ANGLE,
  "compass.b": ANGLE,
  "compass.c": ANGLE,
  "compass.d": ANGLE,
  "compass.e": ANGLE,
  "compass.heelingError": { suffix: "°/°", decimals: 3, of: (value) => value },
  "heel.zero": ANGLE,
  "heelModel.fullHeel": ANGLE,
  "leeway.coefficient": {
    suffix: " deg·kn²/deg",
    decimals: 1,
    of: (coefficient) => coefficient / METRES_PER_SECOND_IN_A_KNOT ** 2,
  },
  "vane.mastheadOffset": ANGLE,
  "vane.upwash": ANGLE,
  "vane.upwashSlope": ANGLE,
  "vane.upwashBroad": ANGLE,
  "anemometer.threshold": SPEED,
  "anemometer.gain": PERCENT,
  "anemometer.speedUp": PERCENT,
};

/** "+1.6°": an amount of a parameter; gains, which are kept as logarithms, as percent. Never throws. */
export function parameterAmount(name: ParameterName, value: number): string {
  const { suffix, decimals, of } = SHAPES[name];
  return `${signed(of(value), decimals)}${suffix}`;
}

/** The same as a number for a figure, in the unit that `parameterUnit` names. Never throws. */
export const parameterNumber = (name: ParameterName, value: number): number => SHAPES[name].of(value);

/** "°", "%", "kn": the unit in which a parameter is shown. Never throws. */
export const parameterUnit = (name: ParameterName): string => SHAPES[name].suffix.trim();

/** "1.6°", without a sign. Never throws. */
export const parameterSize = (name: ParameterName, value: number): string =>
  parameterAmount(name, Math.abs(value)).replace("+", "");

/** "± 0.8°": half the 95 % interval. Never throws. */
export function parameterInterval(name: ParameterName, sd: number): string {
  const { suffix, decimals, of } = SHAPES[name];
  return `± ${plain(HALF_WIDTH_95 * of(sd), decimals)}${suffix}`;
}

const ONE_OF: Readonly<Record<string, string>> = {
  "°": "degree",
  " %": "percent",
  " kn": "0.1 kn",
  "°/°": "0.01°/°",
  " deg·kn²/deg": "deg·kn²/deg",
};
const ONE: Readonly<Record<string, number>> = { " kn": 0.1, "°/°": 0.01 };

/**
 * "0.7 times the upwash", "0.06 kn for each percent of the boat speed gain": a parameter with its weight in a sum that counts in the
 * unit of another. Never throws.
 *
 * @param weight not negative
 */
export function weighted(name: ParameterName, weight: number, inUnitOf: ParameterName): string {
  const [own, other] = [SHAPES[name], SHAPES[inUnitOf]];
  if (own.suffix === other.suffix) return `${plain(weight, 1)} times ${PARAMETER_WORDS[name]}`;
  const perUnit = (other.of(weight) / own.of(1)) * (ONE[own.suffix] ?? 1);
  return `${plain(perUnit, other.decimals + 1)}${other.suffix} for each ${ONE_OF[own.suffix]} of ${PARAMETER_WORDS[name]}`;
}

/** Names for the columns of a table, where those in sentences are too long. */
const SHORT: Partial<Readonly<Record<ParameterName, string>>> = {
  "speed.gainDifference": "boat speed gain, starboard less port",
  "compass.b": "deviation (B)",
  "compass.c": "deviation (C)",
  "compass.d": "deviation (D)",
  "compass.e": "deviation (E)",
  "compass.heelingError": "heeling error of the compass, °/°",
  "leeway.coefficient": "leeway, deg·kn²/deg",
  "vane.upwashSlope": "upwash, change with the wind",
  "anemometer.speedUp": "speed-up over the sails",
};

/** A table's row of a parameter: its head, then amounts and intervals without what stands in the head. Never throws. */
export const parameterRow = (name: ParameterName, ...cells: readonly string[]): readonly string[] => [
  SHORT[name] ?? PARAMETER_WORDS[name].replace(/^the /, ""),
  ...cells.map((cell) => cell.replaceAll(/(?: deg·kn²\/deg|°\/°)/g, "")),
];
