import { readFile } from "node:fs/promises";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { Agreement } from "../../packages/core/src/calibration/calibration.ts";
import { columnsFromFile } from "../../packages/core/src/calibration/columnsFile.ts";
import type { BoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import type { LogSource } from "../../packages/core/src/job/logSource.ts";
import { summariseLogs } from "../../packages/core/src/job/summariseLogs.ts";
import { agreementsOf } from "../../packages/core/src/judge/agreements.ts";
import { type Comparison, compareFits } from "../../packages/core/src/judge/compare.ts";
import { statesCorrected, statesOnBoard } from "../../packages/core/src/judge/rowWind.ts";
import type { LegRow } from "../../packages/core/src/sailing/legRow.ts";
import { requireSolved } from "./scoredSails.ts";

/** Open recordings with sailing on both tacks in each half; what their columns are. */
export const HALVED = [
  { name: "bay", file: "bay-start-2008.nmea" },
  { name: "lake", file: "lake-race-2018.csv.gz", columns: "lake-race-2018.columns.json" },
] as const;

export type Halved = (typeof HALVED)[number];

const CONTEXT = { heelSign: "auto", steeredBy: "unknown", leewayLawHolds: true } as const;

const recorded = (name: string): URL => new URL(`../../datasets/recorded/${name}`, import.meta.url);

async function rowsOf(one: Halved): Promise<readonly LegRow[]> {
  const bytes = await readFile(recorded(one.file));
  async function* chunks() {
    yield bytes;
  }
  const log = { name: one.name, chunks: { [Symbol.asyncIterator]: chunks } };
  const columns =
    "columns" in one
      ? { columns: columnsFromFile(await readFile(recorded(one.columns), "utf8"), one.columns) }
      : {};
  const source: LogSource = { ...log, ...columns };
  return (await summariseLogs([source], UNKNOWN_BOAT)).sailing.rows;
}

/** Rows under sail on the tack that has fewer of them. */
const onLesserTack = (rows: readonly LegRow[]): number =>
  Math.min(
    ...["starboard", "port"].map(
      (tack) => rows.filter((row) => row.kind === "sailing" && row.tack === tack).length,
    ),
  );

/** Two parts between two legs, parted where each has the most on the tack that it has less of. */
function halvesOf(rows: readonly LegRow[]): readonly [readonly LegRow[], readonly LegRow[]] {
  const cuts = rows.flatMap(({ leg }, at) => (at > 0 && rows[at - 1]!.leg !== leg ? [at] : []));
  const least = (cut: number): number =>
    Math.min(onLesserTack(rows.slice(0, cut)), onLesserTack(rows.slice(cut)));
  const best = cuts.toSorted((one, other) => least(other) - least(one))[0]!;
  return [rows.slice(0, best), rows.slice(best)];
}

/** How far the wind's direction disagrees between tacks (M61), rad: as shown on board, and as corrected from the whole recording. */
export interface HalfOfRecording {
  readonly rows: number;
  readonly before: Agreement;
  readonly after: Agreement;
  readonly fit: BoatFit;
}

export interface ComparedHalves {
  readonly halves: readonly [HalfOfRecording, HalfOfRecording];
  /** Where both halves were solved by themselves. */
  readonly comparison?: Comparison;
}

/** Both halves of a recording, held against each other; each fitted by itself where it holds enough. @throws Unsolved where the whole does not */
export async function recordedHalves(one: Halved): Promise<ComparedHalves> {
  const rows = await rowsOf(one);
  const { settings, wander } = requireSolved(fitBoat(rows, CONTEXT));
  const { computer } = UNKNOWN_BOAT;
  const [first, second] = halvesOf(rows).map((half): HalfOfRecording => {
    const onBoard = statesOnBoard(half, UNKNOWN_BOAT.settings.active, computer);
    const [before] = agreementsOf(half, onBoard, wander);
    const [after] = agreementsOf(half, statesCorrected(half, settings), wander);
    return { rows: half.length, before, after, fit: fitBoat(half, CONTEXT) };
  });
  const halves = [first!, second!] as const;
  const [early, late] = [first!.fit, second!.fit];
  const solved = early.status === "solved" && late.status === "solved";
  return { halves, ...(solved ? { comparison: compareFits(early, late) } : {}) };
}
