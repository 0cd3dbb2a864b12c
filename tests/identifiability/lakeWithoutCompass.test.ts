/**
 * A race on a lake in shifting wind, without compass and heel sensor: nobody knows what its corrections were, and the log tells none
 * that stands out of its doubt.
 *
 * INPUTS: the open recording and its mapping file.
 * MARGIN: 95 % intervals, 1.96 standard deviations.
 */
import { readFile } from "node:fs/promises";
import { gunzipSync } from "node:zlib";
import { beforeAll, describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { columnsFromFile } from "../../packages/core/src/calibration/columnsFile.ts";
import type { Calibrated } from "../../packages/core/src/job/answerOf.ts";
import { calibrateLogs } from "../../packages/core/src/job/calibrateLogs.ts";

const recorded = (name: string): URL => new URL(`../../datasets/recorded/${name}`, import.meta.url);

let log: string;
let calibrated: Calibrated;

beforeAll(async () => {
  const bytes = await readFile(recorded("lake-race-2018.csv.gz"));
  const columns = columnsFromFile(await readFile(recorded("lake-race-2018.columns.json"), "utf8"), "columns");
  async function* chunks() {
    yield bytes;
  }
  log = gunzipSync(bytes).toString("latin1");
  const source = { name: "lake", columns, chunks: { [Symbol.asyncIterator]: chunks } };
  calibrated = await calibrateLogs([source], UNKNOWN_BOAT);
});

describe("a race on a lake without a compass", () => {
  it("is read row by row; what is called its heading is its course", () => {
    const { lines, others } = calibrated.answer.recording;
    const rows = log.trimEnd().split("\n").slice(1);
    const told = rows.filter((row) => /,[^,]/.test(row)).length;
    expect(lines).toEqual({
      lines: rows.length + 1,
      used: told,
      ignored: rows.length + 1 - told,
      problems: 0,
    });
    expect(others).toMatchObject([
      {
        source: { quantity: "headingTrue", name: "hdg_true" },
        why: "the course over ground in 100 % of its changes: no compass",
      },
    ]);
  });

  it("is fitted, rows under power without a heading included", () => {
    const { fit } = calibrated.answer;
    expect(fit.status).toBe("solved");
    expect(calibrated.rows.some(({ kind, mean }) => kind === "motoring" && Number.isNaN(mean.heading))).toBe(
      true,
    );
  });

  it("leaves the tacks' disagreement within its doubt, before and after", () => {
    const { before, after } = calibrated.answer;
    for (const [tacks] of [before, after!]) {
      expect(Math.abs(tacks.value)).toBeLessThan(1.96 * tacks.sd);
      // wide: wind shifts of more than ten degrees between tacks are all that there is to compare
      expect(1.96 * tacks.sd).toBeGreaterThan((3 * Math.PI) / 180);
    }
  });

  it("gives nothing to key in but, with doubt, what symmetry on one day says of the masthead unit", () => {
    const advised = calibrated.tables!.settings.filter(({ advice }) => advice === "key in");
    expect(advised.map(({ name }) => name).filter((name) => name !== "masthead offset")).toEqual([]);
    expect(advised.every(({ doubts }) => doubts.length > 0)).toBe(true);
    expect(calibrated.answer.words.notes).toContain(
      "No compass: course over ground, less leeway, stood in for the heading; a current turns it, which the intervals do not know.",
    );
  });
});
