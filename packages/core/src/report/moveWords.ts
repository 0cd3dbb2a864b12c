import type { Move } from "../judge/compare.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import { parameterInterval, parameterSize } from "./parameterAmounts.ts";

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
