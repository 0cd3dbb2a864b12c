/**
 * A log in columns on the page, with the mapping file that says what they hold dropped beside it.
 *
 * INPUTS: a log made here.
 */
import { gzipSync } from "node:zlib";
import { RefusedFile, UNKNOWN_BOAT, UnusableLog } from "@bothtacks/core";
import { describe, expect, it } from "vitest";
import { Bench } from "../../packages/notebooks/src/boat/bench.ts";
import { inThisThread } from "../../packages/notebooks/src/boat/holding.ts";

const rows = Array.from({ length: 120 }, (_, second) => `${second};-30,5;10,5;5,5`);
const log = new File([`t;awa;aws;stw\n${rows.join("\n")}\n`], "afternoon.csv");
const mapping = {
  schema: "bothtacks-columns",
  time: { column: "t", as: { format: "seconds", start: "2031-05-14T12:00:00Z" } },
  columns: {
    aws: { quantity: "apparentWindSpeed", unit: "kn" },
    stw: { quantity: "speedThroughWater", unit: "kn" },
  },
};
const fileOf = (value: unknown): File => new File([JSON.stringify(value)], "columns.json");

const read = (...files: readonly File[]) => inThisThread().read({ files, boat: UNKNOWN_BOAT }, {});

describe("your boat, from a log in columns", () => {
  it("is read with the mapping file beside it, in any order", async () => {
    for (const files of [
      [log, fileOf(mapping)],
      [fileOf(mapping), log],
    ]) {
      const { recording } = await read(...files);
      expect(recording.files).toEqual(["afternoon.csv"]);
      expect(recording.lines).toEqual({ lines: 121, used: 120, ignored: 1, problems: 0 });
      expect(recording.chosen.map(({ source }) => source.name)).toEqual(["awa", "aws", "stw"]);
    }
  });

  it("without it is refused in words, and so is a mapping file that is wrong", async () => {
    await expect(read(log)).rejects.toThrow(UnusableLog);
    await expect(read(log)).rejects.toThrow('the unit of column "aws" is not told');
    await expect(read(log, fileOf({ ...mapping, version: 9 }))).rejects.toThrow(RefusedFile);
  });

  it("without it gives the mapping file to fill in, from gzip as well; filled in, the columns are taken", async () => {
    const packed = new File([gzipSync(await log.text())], "afternoon.csv.gz");
    for (const given of [log, packed]) {
      const bench = new Bench(inThisThread());
      await bench.open([given]);
      expect(bench.state.trouble).toContain(`${given.name}: the unit of column "aws" is not told`);
      const open = JSON.parse(bench.state.toFillIn ?? "") as typeof mapping;
      expect(open.schema).toBe("bothtacks-columns");
      expect(open.columns.aws).toEqual({ quantity: "apparentWindSpeed", unit: "?" });
      const filled = { ...open, time: mapping.time, columns: { ...open.columns, ...mapping.columns } };
      await bench.open([given, fileOf(filled)]);
      // two minutes of one tack: no answer, and none that a mapping file would help to
      expect(bench.state.trouble ?? "").not.toContain("column");
      expect(bench.state.toFillIn).toBeUndefined();
      await bench.open([given]);
      expect(bench.state.toFillIn).toBeDefined();
      await bench.open([new File(["prose"], "letter.txt")]);
      expect(bench.state.trouble).toMatch(/^letter\.txt: holds no/);
      expect(bench.state.toFillIn).toBeUndefined();
    }
  });

  it("a calibration or a boat file among the logs is told where it belongs", async () => {
    const calibration = fileOf({ schema: "bothtacks-calibration" });
    await expect(read(log, calibration)).rejects.toThrow(
      /columns\.json: expected a log, received a calibration: load/,
    );
    await expect(read(fileOf({ schema: "bothtacks-boat" }))).rejects.toThrow(/received a boat file: load/);
  });
});
