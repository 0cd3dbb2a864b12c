import { ANSWER_FILES, answerFiles } from "../../job/answerFiles.ts";
import { answerInTurns } from "../../job/answerOf.ts";
import { summariseLogs } from "../../job/summariseLogs.ts";
import { logsAt } from "../../node/logsAt.ts";
import { plotlySource } from "../../node/plotlySource.ts";
import { requireFolderFree, writeFolderWhole } from "../../node/writeWhole.ts";
import { printedSummary } from "../../report/summary.ts";
import type { Command } from "../command.ts";
import { InputFailure } from "../failures.ts";
import { COLUMNS_OPTION, columnsOfLogs } from "../givenColumns.ts";
import { BOAT_OPTIONS, boatOfLog } from "../givenFiles.ts";
import { folderGiven, keepAnswer, requireOneState } from "../givenFolder.ts";
import { READING_OPTIONS, whileReading } from "../givenLogs.ts";
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
      ...COLUMNS_OPTION,
      ...READING_OPTIONS,
      replace: { meaning: "replace a folder that holds nothing but an earlier answer" },
    },
  },

  async execute(given, surroundings) {
    const { print, progress, signal } = surroundings;
    const out = given.options.get("out") ?? "";
    const replace = given.options.has("replace");
    const [boat, folder] = [await boatOfLog(given), await folderGiven(given)];
    const columns = await columnsOfLogs(given);
    const logs = (await logsAt(given.operands)).map((log) => ({ ...log, ...columns }));
    await requireFolderFree(out, ANSWER_FILES, replace);
    const line = progressLine(progress);
    // the summary is not held on to: the rows of a whole season need no memory while it is fitted
    const calibrated = await whileReading(given, logs, surroundings, (run) =>
      summariseLogs(logs, boat, run),
    ).then((summary) => {
      if (folder) requireOneState(folder, summary.recording);
      return answerInTurns(summary, boat, {}, { progress: line.show, signal }).finally(line.clear);
    });
    const { answer, tables } = calibrated;
    print(printedSummary(answer, tables));
    if (answer.fit.status === "unsolved")
      throw new InputFailure(`${given.operands.join(", ")}: ${answer.fit.reason}`);
    const made = Date.now() / 1000;
    const files = answerFiles(calibrated, await plotlySource(), made, folder?.history);
    if (files) await writeFolderWhole(out, files, replace);
    print(`\nWritten to ${out}: ${ANSWER_FILES.join(", ")}.\n`);
    if (!folder || !files) return;
    const [kept, proposal] = await keepAnswer(folder, calibrated, files["calibration.json"], made);
    print(`Kept in ${kept}.\nOnce it is keyed in: bothtacks entered ${proposal} --boat ${folder.path}\n`);
  },
};
