import { UNKNOWN_BOAT } from "../../calibration/boatFile.ts";
import { correctedLog } from "../../job/correctedLog.ts";
import { logFile } from "../../node/logFile.ts";
import { requireFileFree, writeFileWhole } from "../../node/writeWhole.ts";
import { correctedCsvHeader, correctedCsvLine } from "../../report/correctedCsv.ts";
import type { CorrectedSecond } from "../../sailing/correctedSeconds.ts";
import type { Command } from "../command.ts";
import { InputFailure } from "../failures.ts";
import { COLUMNS_OPTION, columnsOfLogs } from "../givenColumns.ts";
import { BOAT_OPTIONS, boatOfLog, calibrationAt } from "../givenFiles.ts";
import { progressLine } from "../progressLine.ts";

async function* csvOf(
  seconds: AsyncIterable<CorrectedSecond>,
  directionsAre: "true" | "magnetic",
): AsyncGenerator<string, void, undefined> {
  yield correctedCsvHeader(directionsAre);
  for await (const second of seconds) yield correctedCsvLine(second);
}

/** Recomputes the true wind of a log with a calibration. */
export const apply: Command = {
  shape: {
    name: "apply",
    purpose: "recomputes the true wind of a log with a calibration, one row a second",
    operands: ["CALIBRATION", "LOG"],
    options: {
      out: { value: "FILE", required: true, meaning: "the CSV file to write" },
      ...BOAT_OPTIONS,
      ...COLUMNS_OPTION,
      replace: { meaning: "write over a file that is there" },
    },
  },

  async execute(given, { print, progress, signal }) {
    const [calibrationPath = "", logPath = ""] = given.operands;
    const out = given.options.get("out") ?? "";
    const replace = given.options.has("replace");
    const calibration = await calibrationAt(calibrationPath);
    const boat = await boatOfLog(given, { ...calibration.boat, settings: UNKNOWN_BOAT.settings }, [logPath]);
    const log = { ...(await logFile(logPath)), ...(await columnsOfLogs(given)) };
    await requireFileFree(out, replace);
    const line = progressLine(progress);
    const run = { progress: line.show, signal };
    try {
      const corrected = await correctedLog(log, calibration, boat, run);
      if (corrected.status === "refused") throw new InputFailure(`${logPath}: ${corrected.reason}`);
      await writeFileWhole(out, csvOf(corrected.seconds, corrected.directionsAre), replace);
      line.clear();
      for (const note of corrected.notes) print(`${note}\n`);
      print(`${out}: true wind of ${logPath}, directions ${corrected.directionsAre}.\n`);
    } finally {
      line.clear();
    }
  },
};
