import type { LegRow } from "../sailing/legRow.ts";
import { unknownBoatReadings } from "../sensors/boatReadings.ts";
import { type Circumstances, unknownBoatState } from "../sensors/boatState.ts";
import { exactLaws, type LawErrors } from "../sensors/lawErrors.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { RecordingChannels } from "./fitContext.ts";
import { addImpliedState, circumstancesOf, type ImpliedStates, impliedStates } from "./impliedState.ts";
import { nominalStates } from "./nominalState.ts";
import { spreadPoints } from "./spreadPoints.ts";

/** A row made ready for the fit. */
export interface RowEvidence {
  readonly row: LegRow;
  /** Mid time, s since 1970. */
  readonly time: number;
  readonly circumstances: Circumstances;
  /** Points that stand for its seconds (M49), each in the order of MOMENT_CHANNELS. */
  readonly points: readonly Float64Array[];
  /** What is usual for its tack and point of sailing (M48), likewise. */
  readonly nominal: Float64Array;
}

/** Rows with their spread points (M49) and nominal values (M48). Never throws. */
export function rowEvidence(rows: readonly LegRow[], channels: RecordingChannels): readonly RowEvidence[] {
  const nominal = nominalStates(rows, channels);
  return rows.map((row, index) => ({
    row,
    time: row.start + row.duration / 2,
    circumstances: circumstancesOf(row, channels),
    points: spreadPoints(row),
    nominal: nominal[index]!,
  }));
}

const scratch = () => ({ readings: unknownBoatReadings(), state: unknownBoatState() });

/** States averaged over the points that are asked for, each of the same weight. */
function statesOf(
  evidence: readonly RowEvidence[],
  pointsOf: (one: RowEvidence) => readonly Float64Array[],
  settings: SensorSettings,
  channels: RecordingChannels,
  laws: LawErrors,
): ImpliedStates {
  const states = impliedStates(evidence.length);
  const working = scratch();
  evidence.forEach((one, index) => {
    const points = pointsOf(one);
    for (const point of points) {
      addImpliedState(
        point,
        one.circumstances,
        settings,
        channels,
        1 / points.length,
        states,
        index,
        working,
        laws,
      );
    }
  });
  return states;
}

/** The rows' implied states, averaged over each row's seconds (M49, M50). Never throws. */
export const measuredStates = (
  evidence: readonly RowEvidence[],
  settings: SensorSettings,
  channels: RecordingChannels,
  laws: LawErrors = exactLaws,
): ImpliedStates => statesOf(evidence, ({ points }) => points, settings, channels, laws);

/** The implied states at the rows' nominal values (M48, M50). Never throws. */
export const usualStates = (
  evidence: readonly RowEvidence[],
  settings: SensorSettings,
  channels: RecordingChannels,
  laws: LawErrors = exactLaws,
): ImpliedStates => statesOf(evidence, ({ nominal }) => [nominal], settings, channels, laws);
