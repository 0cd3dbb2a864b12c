import { summariseLogs } from "../../job/summariseLogs.ts";
import { logsAt } from "../../node/logsAt.ts";
import { printedCheck } from "../../report/checkText.ts";
import type { Command } from "../command.ts";
import { COLUMNS_OPTION, columnsOfLogs } from "../givenColumns.ts";
import { BOAT_OPTIONS, boatOfLog } from "../givenFiles.ts";
import { READING_OPTIONS, whileReading } from "../givenLogs.ts";

/** Tells what is in a recording. */
export const check: Command = {
  shape: {
    name: "check",
    purpose: "tells what is in a recording, and what it can and cannot calibrate",
    operands: ["LOG…"],
    options: { ...BOAT_OPTIONS, ...COLUMNS_OPTION, ...READING_OPTIONS },
  },

  async execute(given, surroundings) {
    const boat = await boatOfLog(given);
    const columns = await columnsOfLogs(given);
    const logs = (await logsAt(given.operands)).map((log) => ({ ...log, ...columns }));
    const { recording, sailing, health } = await whileReading(given, logs, surroundings, (run) =>
      summariseLogs(logs, boat, run),
    );
    surroundings.print(printedCheck({ recording, ...sailing, health }));
  },
};
