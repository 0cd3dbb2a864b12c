import type { OnboardComputer } from "../calibration/boat.ts";
import type { RecordingChannels } from "../fit/fitContext.ts";
import { circumstancesOf, type ImpliedStates } from "../fit/impliedState.ts";
import { channelsOf } from "../fit/recordingChannels.ts";
import { measuredStates, type RowEvidence } from "../fit/rowEvidence.ts";
import { spreadPoints } from "../fit/spreadPoints.ts";
import { type LegRow, MOMENT_CHANNELS } from "../sailing/legRow.ts";
import type { SensorSettings } from "../sensors/parameters.ts";

const HEEL = MOMENT_CHANNELS.indexOf("heel");

/** A row made ready for its measured states alone, which do not look at what is usual. */
const evidenceOf = (row: LegRow, channels: RecordingChannels): RowEvidence => ({
  row,
  time: row.start + row.duration / 2,
  circumstances: circumstancesOf(row, channels),
  points: spreadPoints(row),
  nominal: new Float64Array(),
  ofLeg: new Float64Array(),
});

/**
 * Rows' implied states once faults are undone, averaged over their seconds (M49, M50).
 *
 * @param settings on the base that the rows count from
 * @returns a state a row, NaN where a channel is missing. Never throws.
 * @example
 * statesCorrected(rows, fit.settings).windEast.length === rows.length // true
 */
export function statesCorrected(rows: readonly LegRow[], settings: SensorSettings): ImpliedStates {
  const channels = channelsOf(rows);
  return measuredStates(
    rows.map((row) => evidenceOf(row, channels)),
    settings,
    channels,
  );
}

/** The same row to a computer that takes her as upright. */
const upright = (evidence: RowEvidence): RowEvidence => ({
  ...evidence,
  circumstances: { ...evidence.circumstances, heelIs: "true" },
  points: evidence.points.map((point) => point.with(HEEL, 0)),
});

/**
 * M60. What the computer on board makes of the rows: the settings that are active in the instruments, heel and leeway only
 * as far as it corrects them.
 *
 * @param rows on the base that `active` counts from
 * @param computer what it corrects for
 * @returns states as `statesCorrected`. Never throws.
 * @example
 * statesOnBoard(rows, noCorrections, boat.computer).windEast.length === rows.length // true
 */
export function statesOnBoard(
  rows: readonly LegRow[],
  active: SensorSettings,
  computer: OnboardComputer,
): ImpliedStates {
  const channels = channelsOf(rows);
  const evidence = rows.map((row) => evidenceOf(row, channels));
  const settings = computer.correctsLeeway ? active : { ...active, leeway: { coefficient: 0 } };
  return measuredStates(computer.correctsHeel ? evidence : evidence.map(upright), settings, channels);
}
