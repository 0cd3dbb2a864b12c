import { wrapAngle } from "../angles.ts";
import { type Radians, radians } from "../units.ts";
import { correlatedMean } from "./correlatedMean.ts";
import { type Day, daysOf } from "./days.ts";
import type { FitContext, RecordingChannels } from "./fitContext.ts";
import type { ImpliedPlace, ImpliedStates } from "./impliedState.ts";
import type { RowEvidence } from "./rowEvidence.ts";

/** What a mean can be off by: an error of the day's own and one that all days of the boat share. */
export interface SymmetryError {
  readonly day: Radians;
  readonly shared: Radians;
}

/** Evidence that is one number for a day: a mean over some rows that ought to vanish. */
export interface ScalarEvidence {
  readonly name: "symmetry of sailing" | "symmetry of heel" | "upright under power";
  readonly place: "apparentAngle" | "heel";
  /** Groups whose means are averaged: starboard and port, or one group. */
  readonly groups: readonly (readonly number[])[];
  /** That of the day with what so few rows leave to chance. */
  readonly error: SymmetryError;
}

/** What symmetry says of all days. */
export interface SymmetryEvidence {
  readonly scalars: readonly ScalarEvidence[];
  /** Why symmetry of sailing was left out on days where it was, a sentence. */
  readonly symmetryLeftOut?: string;
}

/** Level apparent wind angles up to this are upwind. */
const UPWIND: Radians = radians(55);

/** Fewer rows than this on a tack prove no symmetry. */
const LEAST_ROWS = 6;

/**
 * M53. What symmetry of sailing can be off by: the day's shear between masthead and sails, some 1° of the true wind and so
 * some 0.7° of the apparent, and the boat's and the crew's own asymmetry. Common practice, no source; wider where it
 * is not known that she was steered by the sails.
 */
const SAILING_ERROR: Readonly<Record<"sails" | "unknown", SymmetryError>> = {
  sails: { day: radians(0.7), shared: radians(0.4) },
  unknown: { day: radians(0.9), shared: radians(0.6) },
};
/** Trim, crew and wind that differ from tack to tack; upright, what lies on one side below. Likewise. */
const HEEL_ERROR: SymmetryError = { day: radians(0.55), shared: radians(0.55) };
const UPRIGHT_ERROR: SymmetryError = { day: radians(0.4), shared: radians(0.45) };

/** What a mean of one day can be off by in all, and of several. */
export const errorOfOneDay = ({ day, shared }: SymmetryError): Radians => Math.hypot(day, shared);
export const errorOfDays = ({ day, shared }: SymmetryError, days: number): Radians =>
  Math.hypot(day / Math.sqrt(days), shared);

/** Mean of a place of the implied states over rows, angles about zero. */
export function meanOver(rows: readonly number[], states: ImpliedStates, place: ImpliedPlace): number {
  let sum = 0;
  for (const row of rows) sum += wrapAngle(states[place][row]!);
  return sum / rows.length;
}

/** What helm, gusts and waves leave in a mean over so few rows (M128), the groups' means averaged. */
function chanceOfMean({ place, groups }: Omit<ScalarEvidence, "error">, states: ImpliedStates): Radians {
  const deviations = groups.map(
    (rows) =>
      correlatedMean(
        rows.map((row) => wrapAngle(states[place][row]!)),
        1,
      ).deviation,
  );
  return Math.hypot(...deviations) / groups.length;
}

/** M53. Means that ought to vanish, off by what days and boats are off by, and by chance. */
function vanishing(of: ScalarEvidence, states: ImpliedStates): ScalarEvidence {
  const day = Math.hypot(of.error.day, chanceOfMean(of, states));
  return { ...of, error: { ...of.error, day } };
}

const rowsOf = (
  { from, to }: Day,
  evidence: readonly RowEvidence[],
  belongs: (one: RowEvidence, index: number) => boolean,
): readonly number[] =>
  Array.from({ length: to - from }, (_, place) => from + place).filter((index) =>
    belongs(evidence[index]!, index),
  );

/** Legs of a tack this much freer than her closest are no longer close-hauled: light air frees her by 5° or 6°, a reach by more. */
const FREER: Radians = radians(8);
/** Fewer rows than this are no leg to go by. */
const LEAST_OF_LEG = 3;

/**
 * Rows on a tack that she was close-hauled on: of the legs upwind those near the closest. A close reach on one of the tacks would
 * be taken for a wind that leans.
 */
function closeHauledRows(
  day: Day,
  evidence: readonly RowEvidence[],
  states: ImpliedStates,
  tack: "starboard" | "port",
): readonly number[] {
  const legs = new Map<number, number[]>();
  for (const index of rowsOf(day, evidence, ({ row }) => row.kind === "sailing" && row.tack === tack)) {
    const { leg } = evidence[index]!.row;
    const rows = legs.get(leg);
    if (rows) rows.push(index);
    else legs.set(leg, [index]);
  }
  const upwind = [...legs.values()]
    .map((rows) => ({ rows, angle: Math.abs(meanOver(rows, states, "apparentAngle")) }))
    .filter(({ rows, angle }) => rows.length >= LEAST_OF_LEG && angle < UPWIND);
  const closest = Math.min(...upwind.map(({ angle }) => angle));
  return upwind.filter(({ angle }) => angle <= closest + FREER).flatMap(({ rows }) => rows);
}

/**
 * Whether both tacks were sailed alike: speed within 8 %, and heel as far as a zero of the sensor that is still unknown lets
 * one see: twice the prior's 2°.
 */
function sailedAlike(starboard: readonly number[], port: readonly number[], states: ImpliedStates): boolean {
  const heel = (meanOver(starboard, states, "heel") + meanOver(port, states, "heel")) / 2;
  const speeds = [starboard, port].map((rows) => meanOf(rows, states, "speed"));
  const speedRatio = Math.abs(Math.log(speeds[0]! / speeds[1]!));
  return !(Math.abs(heel) > radians(4)) && !(speedRatio > 0.08);
}

const meanOf = (rows: readonly number[], states: ImpliedStates, place: ImpliedPlace): number =>
  rows.reduce((sum, row) => sum + states[place][row]!, 0) / rows.length;

interface DayOfSymmetry {
  readonly scalars: readonly ScalarEvidence[];
  readonly leftOut?: string;
}

function ofOneDay(
  day: Day,
  evidence: readonly RowEvidence[],
  states: ImpliedStates,
  context: FitContext,
  channels: RecordingChannels,
): DayOfSymmetry {
  const scalars: ScalarEvidence[] = [];
  const add = (of: ScalarEvidence): unknown => scalars.push(vanishing(of, states));
  const groups = [
    closeHauledRows(day, evidence, states, "starboard"),
    closeHauledRows(day, evidence, states, "port"),
  ];
  const motoring = rowsOf(day, evidence, ({ row }) => row.kind === "motoring");
  if (channels.heel && motoring.length >= LEAST_ROWS)
    add({ name: "upright under power", place: "heel", groups: [motoring], error: UPRIGHT_ERROR });
  const leftOut = whyLeftOut(groups[0]!, groups[1]!, states, context);
  if (leftOut !== undefined) return { scalars, leftOut };
  if (channels.heel) add({ name: "symmetry of heel", place: "heel", groups, error: HEEL_ERROR });
  const error = SAILING_ERROR[context.steeredBy === "sails" ? "sails" : "unknown"];
  add({ name: "symmetry of sailing", place: "apparentAngle", groups, error });
  return { scalars };
}

/**
 * M53. What symmetry says, as far as it may be believed, a day at a time: the level apparent angles upwind of both tacks average to
 * zero when she was steered by the sails and went alike on both; her heel likewise; and under power she stands upright.
 *
 * @param evidence rows in time order
 * @param states implied states of the rows at the settings of the round
 * @returns the evidence and, in words, why symmetry of sailing was left out on days where it was. Never throws.
 */
export function scalarEvidence(
  evidence: readonly RowEvidence[],
  states: ImpliedStates,
  context: FitContext,
  channels: RecordingChannels,
): SymmetryEvidence {
  const days = daysOf(evidence.map(({ row }) => row)).map((day) =>
    ofOneDay(day, evidence, states, context, channels),
  );
  const scalars = days.flatMap((day) => day.scalars);
  const reasons = days.flatMap(({ leftOut }) => (leftOut === undefined ? [] : [leftOut]));
  if (reasons.length === 0) return { scalars };
  const where = reasons.length === days.length ? "" : ` on ${reasons.length} of ${days.length} days`;
  return { scalars, symmetryLeftOut: `Symmetry of sailing was left out${where}${reasons[0]!}` };
}

function whyLeftOut(
  starboard: readonly number[],
  port: readonly number[],
  states: ImpliedStates,
  context: FitContext,
): string | undefined {
  if (context.symmetry === false) return " as asked.";
  if (context.steeredBy === "display")
    return ": she was steered to the displayed angle, which makes any angle symmetric.";
  if (starboard.length < LEAST_ROWS || port.length < LEAST_ROWS)
    return ": too little was sailed upwind on one of the tacks.";
  if (!sailedAlike(starboard, port, states))
    return ": heel or speed differed between the tacks, so she was not sailed alike.";
  return undefined;
}
