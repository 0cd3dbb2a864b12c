import { summariseLogs } from "../../job/summariseLogs.ts";
import { logFile } from "../../node/logFile.ts";
import { printedCheck } from "../../report/checkText.ts";
import type { Command } from "../command.ts";
import { BOAT_OPTIONS, boatOfLog } from "../givenFiles.ts";
import { progressLine } from "../progressLine.ts";

/** Tells what is in a recording. */
export const check: Command = {
  shape: {
    name: "check",
    purpose: "tells what is in a recording, and what it can and cannot calibrate",
    operands: ["LOG…"],
    options: BOAT_OPTIONS,
  },

  async execute(given, { print, progress, signal }) {
    const boat = await boatOfLog(given);
    const logs = await Promise.all(given.operands.map(logFile));
    const line = progressLine(progress);
    const run = { progress: line.show, signal };
    const { recording, sailing, gaps } = await summariseLogs(logs, boat, run).finally(line.clear);
    print(printedCheck({ recording, ...sailing }, sailing.rows, gaps));
  },
};
