import type { LegRow } from "../sailing/legRow.ts";
import { unknownBoatReadings } from "../sensors/boatReadings.ts";
import { type Circumstances, underSail, unknownBoatState } from "../sensors/boatState.ts";
import { exactLaws, type LawErrors } from "../sensors/lawErrors.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { Seconds } from "../units.ts";
import { daysOf } from "./days.ts";
import type { RecordingChannels } from "./fitContext.ts";
import {
  addImpliedState,
  circumstancesOf,
  IMPLIED_PLACES,
  type ImpliedStates,
  impliedStates,
} from "./impliedState.ts";
import { legStates } from "./legState.ts";
import { nominalStates, type UsualOf } from "./nominalState.ts";
import { spreadPoints } from "./spreadPoints.ts";

/** A row made ready for the fit. */
export interface RowEvidence {
  readonly row: LegRow;
  /** Mid time, s since 1970. */
  readonly time: number;
  readonly circumstances: Circumstances;
  /** Points that stand for its seconds (M49), each in the order of MOMENT_CHANNELS. */
  readonly points: readonly Float64Array[];
  /** What is usual for its tack and point of sailing (M48), likewise: the wind is judged there. */
  readonly nominal: Float64Array;
  /** What is usual on its own leg (M48), likewise: her motion is judged there. */
  readonly ofLeg: Float64Array;
}

const midTime = ({ start, duration }: LegRow): Seconds => start + duration / 2;

/** Each row's time from the middle of its day's sailing. */
const timesFromMiddle = (rows: readonly LegRow[]): readonly Seconds[] =>
  daysOf(rows).flatMap(({ from, to }) => {
    const middle = (midTime(rows[from]!) + midTime(rows[to - 1]!)) / 2;
    return rows.slice(from, to).map((row) => midTime(row) - middle);
  });

/** How the readings of rows are to be understood (M50), each at its time of the day. Never throws. */
export function circumstancesOfRows(
  rows: readonly LegRow[],
  channels: RecordingChannels,
): readonly Circumstances[] {
  const times = timesFromMiddle(rows);
  return rows.map((row, index) => ({ ...circumstancesOf(row, channels), sinceMiddle: times[index]! }));
}

/** Rows with their spread points (M49) and nominal values (M48). Never throws. */
export function rowEvidence(
  rows: readonly LegRow[],
  channels: RecordingChannels,
  usualOf: UsualOf = "other legs",
): readonly RowEvidence[] {
  const nominal = nominalStates(rows, channels, usualOf);
  const ofLegs = legStates(rows, nominal);
  const circumstances = circumstancesOfRows(rows, channels);
  return rows.map((row, index) => ({
    row,
    time: midTime(row),
    circumstances: circumstances[index]!,
    points: spreadPoints(row),
    nominal: nominal[index]!,
    ofLeg: ofLegs[index]!,
  }));
}

const scratch = () => ({ readings: unknownBoatReadings(), state: unknownBoatState() });

/** Adds the states of one row's points, each of the same weight. */
type Adds = (one: RowEvidence, add: (point: Float64Array, weight: number) => void) => void;

function statesOf(
  evidence: readonly RowEvidence[],
  settings: SensorSettings,
  channels: RecordingChannels,
  laws: LawErrors,
  states: ImpliedStates,
  addsPoints: Adds,
): ImpliedStates {
  for (const place of IMPLIED_PLACES) states[place].fill(0);
  const working = scratch();
  let index = 0;
  let circumstances = underSail;
  const add = (point: Float64Array, weight: number): void => {
    addImpliedState(point, circumstances, settings, channels, weight, states, index, working, laws);
  };
  for (; index < evidence.length; index++) {
    const one = evidence[index]!;
    circumstances = one.circumstances;
    addsPoints(one, add);
  }
  return states;
}

/** The rows' implied states, averaged over each row's seconds (M49, M50). Never throws. */
export const measuredStates = (
  evidence: readonly RowEvidence[],
  settings: SensorSettings,
  channels: RecordingChannels,
  laws: LawErrors = exactLaws,
): ImpliedStates =>
  statesOf(evidence, settings, channels, laws, impliedStates(evidence.length), ({ points }, add) => {
    for (const point of points) add(point, 1 / points.length);
  });

/**
 * The implied states at the rows' nominal values (M48, M50).
 *
 * @param out overwritten and returned: a fit asks for them thousands of times
 * Never throws.
 */
export const usualStates = (
  evidence: readonly RowEvidence[],
  settings: SensorSettings,
  channels: RecordingChannels,
  laws: LawErrors = exactLaws,
  out: ImpliedStates = impliedStates(evidence.length),
): ImpliedStates =>
  statesOf(evidence, settings, channels, laws, out, ({ nominal }, add) => {
    add(nominal, 1);
  });

/**
 * The implied states at what is usual on the rows' own legs (M48, M50).
 *
 * @param out overwritten and returned
 * Never throws.
 */
export const statesOfLegs = (
  evidence: readonly RowEvidence[],
  settings: SensorSettings,
  channels: RecordingChannels,
  laws: LawErrors,
  out: ImpliedStates,
): ImpliedStates =>
  statesOf(evidence, settings, channels, laws, out, ({ ofLeg }, add) => {
    add(ofLeg, 1);
  });
