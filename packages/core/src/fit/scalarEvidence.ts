import { wrapAngle } from "../angles.ts";
import { type Radians, radians } from "../units.ts";
import type { FitContext, RecordingChannels } from "./fitContext.ts";
import type { ImpliedPlace, ImpliedStates } from "./impliedState.ts";
import type { RowEvidence } from "./rowEvidence.ts";

/** Evidence that is one number for the whole recording: a mean over some rows that ought to vanish. */
export interface ScalarEvidence {
  readonly name: "symmetry of sailing" | "symmetry of heel" | "upright under power";
  readonly place: ImpliedPlace;
  /** Groups whose means are averaged: starboard and port, or one group. */
  readonly groups: readonly (readonly number[])[];
  readonly sd: Radians;
}

/** Level apparent wind angles up to this are upwind. */
const UPWIND: Radians = radians(55);

/** Fewer rows than this on a tack prove no symmetry. */
const LEAST_ROWS = 6;

/**
 * M53. Standard deviations of what symmetry can be off by: the day's shear between masthead and sails, some 1° of the true wind and
 * so some 0.7° of the apparent, with the boat's and the crew's own asymmetry. Common practice, no source; wider where it
 * is not known that she was steered by the sails.
 */
const SYMMETRY_SD = { sails: radians(0.8), unknown: radians(1.1) } as const;
/** Trim, crew and wind that differ from tack to tack; upright, what lies on one side below. Likewise. */
const HEEL_SYMMETRY_SD: Radians = radians(0.8);
const UPRIGHT_SD: Radians = radians(0.6);

/** Mean of a place of the implied states over rows, angles about zero. */
export function meanOver(rows: readonly number[], states: ImpliedStates, place: ImpliedPlace): number {
  let sum = 0;
  for (const row of rows) sum += wrapAngle(states[place][row]!);
  return sum / rows.length;
}

function upwindRows(evidence: readonly RowEvidence[], states: ImpliedStates, tack: "starboard" | "port") {
  return [...evidence.keys()].filter((index) => {
    const { row } = evidence[index]!;
    const angle = Math.abs(states.apparentAngle[index]!);
    return row.kind === "sailing" && row.tack === tack && angle < UPWIND;
  });
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

/**
 * M53. What symmetry says, as far as it may be believed: the level apparent angles upwind of both tacks average to zero
 * when she was steered by the sails and went alike on both; her heel likewise; and under power she stands upright.
 *
 * @param evidence rows
 * @param states implied states of the rows at the settings of the round
 * @returns the evidence and, in words, why symmetry of sailing was left out where it was. Never throws.
 */
export function scalarEvidence(
  evidence: readonly RowEvidence[],
  states: ImpliedStates,
  context: FitContext,
  channels: RecordingChannels,
): { readonly scalars: readonly ScalarEvidence[]; readonly symmetryLeftOut?: string } {
  const scalars: ScalarEvidence[] = [];
  const starboard = upwindRows(evidence, states, "starboard");
  const port = upwindRows(evidence, states, "port");
  const motoring = [...evidence.keys()].filter((index) => evidence[index]!.row.kind === "motoring");
  if (channels.heel && motoring.length >= LEAST_ROWS) {
    scalars.push({ name: "upright under power", place: "heel", groups: [motoring], sd: UPRIGHT_SD });
  }
  const leftOut = whySymmetryIsLeftOut(starboard, port, states, context);
  if (leftOut !== undefined) return { scalars, symmetryLeftOut: leftOut };
  const groups = [starboard, port];
  if (channels.heel) {
    scalars.push({ name: "symmetry of heel", place: "heel", groups, sd: HEEL_SYMMETRY_SD });
  }
  const sd = SYMMETRY_SD[context.steeredBy === "sails" ? "sails" : "unknown"];
  scalars.push({ name: "symmetry of sailing", place: "apparentAngle", groups, sd });
  return { scalars };
}

function whySymmetryIsLeftOut(
  starboard: readonly number[],
  port: readonly number[],
  states: ImpliedStates,
  context: FitContext,
): string | undefined {
  if (context.symmetry === false) return "Symmetry of sailing was left out as asked.";
  if (context.steeredBy === "display") {
    return "Symmetry of sailing was left out: she was steered to the displayed angle, which makes any angle symmetric.";
  }
  if (starboard.length < LEAST_ROWS || port.length < LEAST_ROWS) {
    return "Symmetry of sailing was left out: too little was sailed upwind on one of the tacks.";
  }
  if (!sailedAlike(starboard, port, states)) {
    return "Symmetry of sailing was left out: heel or speed differed between the tacks, so she was not sailed alike.";
  }
  return undefined;
}
