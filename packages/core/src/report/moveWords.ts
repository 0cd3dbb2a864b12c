import type { Move } from "../judge/compare.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import { degrees, knots, METRES_PER_SECOND_IN_A_KNOT } from "../units.ts";
import { HALF_WIDTH_95, plain, signed } from "./format.ts";

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

/** "1.6°", without a sign. Never throws. */
export const parameterSize = (name: ParameterName, value: number): string =>
  parameterAmount(name, Math.abs(value)).replace("+", "");

/** "± 0.8°": half the 95 % interval. Never throws. */
export function parameterInterval(name: ParameterName, sd: number): string {
  const { suffix, decimals, of } = SHAPES[name];
  return `± ${plain(HALF_WIDTH_95 * of(sd), decimals)}${suffix}`;
}

type MoveSentence = (by: string, up: boolean) => string;

const reads =
  (sensor: string, where: string, when = ""): MoveSentence =>
  (by, up) =>
    `${sensor} reads ${by} ${up ? "lower" : "higher"}${where} than then${when}`;

const deviation =
  (headings: string, letter: string): MoveSentence =>
  (by, up) =>
    `the compass deviation is ${by} ${up ? "further to the east" : "further to the west"} than then ${headings} (${letter})`;

/** What a parameter's move comes to for the sailor: `by` is its size with its interval, `up` whether the parameter grew. */
const MOVES: Readonly<Record<ParameterName, MoveSentence>> = {
  "speed.intercept": (by, up) =>
    `the log needs ${by} ${up ? "more" : "less"} flow than then before it turns, and reads so much ${up ? "lower" : "higher"}`,
  "speed.gain": reads("the log", ""),
  "speed.gainDifference": reads("the log", " on starboard tack, held against port tack,"),
  "compass.a": reads("the compass", " on all headings"),
  "compass.b": deviation("on easterly headings, and as much the other way on westerly ones", "B"),
  "compass.c": deviation("on northerly headings, and as much the other way on southerly ones", "C"),
  "compass.d": deviation("to the north-east and south-west, and as much the other way between", "D"),
  "compass.e": deviation("to the north and south, and as much the other way to the east and west", "E"),
  "compass.heelingError": (by, up) =>
    `the heeling error of the compass has ${up ? "grown" : "fallen"} by ${by}, degrees of deviation a degree of heel on northerly headings`,
  "heel.zero": (by, up) =>
    `the heel sensor reads ${by} further to ${up ? "starboard" : "port"} than then when the boat is upright`,
  "heelModel.fullHeel": (by, up) => `the boat heels ${by} ${up ? "more" : "less"} than then in much wind`,
  "leeway.coefficient": (by, up) =>
    `the boat makes ${up ? "more" : "less"} leeway than then, by ${by} of the coefficient`,
  "vane.mastheadOffset": (by, up) =>
    `the masthead unit has turned ${by} to ${up ? "port" : "starboard"}: the wind angle reads so much further to ${up ? "starboard" : "port"} than then`,
  "vane.upwash": (by, up) =>
    `the upwash close-hauled has ${up ? "grown" : "fallen"} by ${by}: the wind angle reads so much ${up ? "wider" : "narrower"} than then on both tacks`,
  "vane.upwashSlope": (by, up) =>
    `the upwash changes ${by} ${up ? "more upward" : "more downward"} than then from light to fresh wind`,
  "vane.upwashBroad": (by, up) =>
    `the wind angle reads ${by} ${up ? "wider" : "narrower"} than then with the wind abeam`,
  "anemometer.threshold": (by, up) =>
    `the anemometer needs ${by} ${up ? "more" : "less"} wind than then before it turns`,
  "anemometer.gain": reads("the anemometer", ""),
  "anemometer.speedUp": reads("the anemometer", "", " off the wind"),
};

/** A reading is higher where a parameter that undoes it falls; the speed-up raises readings as it grows. */
const RAISES_READINGS: readonly ParameterName[] = ["anemometer.speedUp"];

/** A move in words, without capital and full stop: "the log reads 2.1 % ± 0.8 % higher than then". Never throws. */
export function moveWords({ name, value, sd }: Move): string {
  const grew = RAISES_READINGS.includes(name) ? value < 0 : value > 0;
  return MOVES[name](`${parameterSize(name, value)} ${parameterInterval(name, sd)}`, grew);
}
