import type { Tack } from "../sailing/legRow.ts";
import { type MetresPerSecond, metresPerSecond, type Radians, radians, type Seconds } from "../units.ts";

/** A leg that may be sailed; the turn into it is part of it. */
export type PlannedLeg =
  | {
      readonly kind: "sail";
      readonly tack: Tack;
      /** True wind angle, unsigned, or the one that she sails best to windward or downwind. */
      readonly angle: Radians | "upwind" | "downwind";
      readonly seconds: Seconds;
    }
  | {
      readonly kind: "motor";
      /** Where she heads, to the right of where the wind comes from. */
      readonly off: Radians;
      readonly speed: MetresPerSecond;
      readonly seconds: Seconds;
    }
  /** Whole turns under power, to starboard positive. */
  | {
      readonly kind: "circle";
      readonly turns: number;
      readonly rate: number;
      readonly speed: MetresPerSecond;
    };

export const EXERCISE_NAMES = [
  "motor along the wind",
  "motor across the wind",
  "motor slowly",
  "circles",
  "tacks",
  "gybes",
  "close reaches",
  "beam reaches",
  "broad reaches",
] as const;

/** The name of an exercise. */
export type ExerciseName = (typeof EXERCISE_NAMES)[number];

/** Legs that belong together, since what they tell is told between them. */
export interface Exercise {
  readonly name: ExerciseName;
  readonly underPower: boolean;
  readonly legs: readonly PlannedLeg[];
}

/** Under power: an easy speed, and one at which a paddle wheel's threshold shows. */
const EASY: MetresPerSecond = metresPerSecond(5.5);
const SLOW: MetresPerSecond = metresPerSecond(3.5);

/** A circle takes four minutes: slow enough for a compass to follow. */
const CIRCLING = radians(1.5);

const THREE_MINUTES: Seconds = 180;
const TWO_MINUTES: Seconds = 120;

const motor = (offDegrees: number, speed: MetresPerSecond): PlannedLeg => ({
  kind: "motor",
  off: radians(offDegrees),
  speed,
  seconds: TWO_MINUTES,
});

const pair = (angle: Radians | "upwind" | "downwind"): readonly PlannedLeg[] =>
  (["starboard", "port"] as const).map((tack) => ({ kind: "sail", tack, angle, seconds: THREE_MINUTES }));

const circle = (turns: number): PlannedLeg => ({ kind: "circle", turns, rate: CIRCLING, speed: EASY });

/**
 * What a plan is put together from, each on both tacks, both ways or to both sides.
 *
 * @example
 * EXERCISES.some(({ name }) => name === "circles") // true
 */
export const EXERCISES: readonly Exercise[] = [
  { name: "motor along the wind", underPower: true, legs: [motor(0, EASY), motor(180, EASY)] },
  { name: "motor across the wind", underPower: true, legs: [motor(90, EASY), motor(-90, EASY)] },
  { name: "motor slowly", underPower: true, legs: [motor(0, SLOW), motor(180, SLOW)] },
  { name: "circles", underPower: true, legs: [circle(1), circle(-1)] },
  { name: "tacks", underPower: false, legs: pair("upwind") },
  { name: "gybes", underPower: false, legs: pair("downwind") },
  { name: "close reaches", underPower: false, legs: pair(radians(60)) },
  { name: "beam reaches", underPower: false, legs: pair(radians(90)) },
  { name: "broad reaches", underPower: false, legs: pair(radians(120)) },
];

/** How long a leg takes. Never throws. */
export const secondsOfLeg = (leg: PlannedLeg): Seconds =>
  leg.kind === "circle" ? (2 * Math.PI * Math.abs(leg.turns)) / leg.rate : leg.seconds;

/** How long it takes to set sails after motoring, with the boat on her course again. */
export const SETTING_SAILS: Seconds = 240;

/** How long exercises take, sails set in between included. Never throws. */
export function secondsOfExercises(exercises: readonly Exercise[]): Seconds {
  const sailing = exercises.reduce(
    (sum, { legs }) => sum + legs.reduce((seconds, leg) => seconds + secondsOfLeg(leg), 0),
    0,
  );
  const both = new Set(exercises.map(({ underPower }) => underPower)).size === 2;
  return sailing + (both ? SETTING_SAILS : 0);
}
