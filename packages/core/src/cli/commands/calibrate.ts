import { ANSWER_FILES, answerFiles } from "../../job/answerFiles.ts";
import { calibrateLogs } from "../../job/calibrateLogs.ts";
import { logFile } from "../../node/logFile.ts";
import { plotlySource } from "../../node/plotlySource.ts";
import { requireFolderFree, writeFolderWhole } from "../../node/writeWhole.ts";
import { printedSummary } from "../../report/summary.ts";
import type { Command } from "../command.ts";
import { InputFailure } from "../failures.ts";
import { BOAT_OPTIONS, boatOfLog } from "../givenFiles.ts";
import { progressLine } from "../progressLine.ts";

/** Finds the corrections, and writes calibration, tables and report. */
export const calibrate: Command = {
  shape: {
    name: "calibrate",
    purpose: "finds the corrections to key in, and how sure each is; writes calibration, tables and report",
    operands: ["LOG…"],
    options: {
      out: { value: "DIR", required: true, meaning: `the folder to write: ${ANSWER_FILES.join(", ")}` },
      ...BOAT_OPTIONS,
      replace: { meaning: "replace a folder that holds nothing but an earlier answer" },
    },
  },

  async execute(given, { print, progress, signal }) {
    const out = given.options.get("out") ?? "";
    const replace = given.options.has("replace");
    const boat = await boatOfLog(given);
    const logs = await Promise.all(given.operands.map(logFile));
    await requireFolderFree(out, ANSWER_FILES, replace);
    const line = progressLine(progress);
    const run = { progress: line.show, signal };
    const calibrated = await calibrateLogs(logs, boat, run).finally(line.clear);
    const { answer, tables } = calibrated;
    print(printedSummary(answer, tables));
    if (answer.fit.status === "unsolved")
      throw new InputFailure(`${given.operands.join(", ")}: ${answer.fit.reason}`);
    const files = answerFiles(calibrated, await plotlySource(), Date.now() / 1000);
    if (files) await writeFolderWhole(out, files, replace);
    print(`\nWritten to ${out}: ${ANSWER_FILES.join(", ")}.\n`);
  },
};
