import { join } from "node:path";
import { summariseLogs } from "../../job/summariseLogs.ts";
import { logsAt } from "../../node/logsAt.ts";
import { plotlySource } from "../../node/plotlySource.ts";
import {
  requireFileFree,
  requireFolderFree,
  writeFileWhole,
  writeFolderWhole,
} from "../../node/writeWhole.ts";
import type { Check } from "../../report/check.ts";
import { checkFileText } from "../../report/checkFile.ts";
import { checkPage } from "../../report/checkPage.ts";
import { printedCheck } from "../../report/checkText.ts";
import type { Command } from "../command.ts";
import { COLUMNS_OPTION, columnsOfLogs } from "../givenColumns.ts";
import { BOAT_OPTIONS, boatOfLog } from "../givenFiles.ts";
import { READING_OPTIONS, whileReading } from "../givenLogs.ts";

/** What a folder of `check` holds. */
const CHECK_FILES = ["check.json", "check.html"] as const;

const isPage = (path: string): boolean => /\.html?$/i.test(path);

const requireFree = (out: string, replace: boolean): Promise<void> =>
  isPage(out) ? requireFileFree(out, replace) : requireFolderFree(out, CHECK_FILES, replace);

/** Writes a page, or a folder with page and JSON; returns what was written. */
async function write(check: Check, out: string, replace: boolean): Promise<string> {
  const page = checkPage(check, await plotlySource());
  if (isPage(out)) {
    await writeFileWhole(out, [page], replace);
    return out;
  }
  await writeFolderWhole(out, { "check.json": checkFileText(check), "check.html": page }, replace);
  return CHECK_FILES.map((name) => join(out, name)).join(", ");
}

/** Tells what is in a recording. */
export const check: Command = {
  shape: {
    name: "check",
    purpose: "tells what is in a recording, how its sensors are, and what it can and cannot calibrate",
    operands: ["LOG…"],
    options: {
      json: { meaning: "print it as JSON" },
      out: { value: "DIR|FILE.html", meaning: `write a page, or a folder with ${CHECK_FILES.join(" and ")}` },
      ...BOAT_OPTIONS,
      ...COLUMNS_OPTION,
      ...READING_OPTIONS,
      replace: { meaning: "write over what an earlier check has written" },
    },
  },

  async execute(given, surroundings) {
    const { print } = surroundings;
    const [out, replace] = [given.options.get("out"), given.options.has("replace")];
    const boat = await boatOfLog(given);
    const columns = await columnsOfLogs(given);
    const logs = (await logsAt(given.operands)).map((log) => ({ ...log, ...columns }));
    if (out !== undefined) await requireFree(out, replace);
    const { recording, sailing, health } = await whileReading(given, logs, surroundings, (run) =>
      summariseLogs(logs, boat, run),
    );
    const found: Check = { recording, ...sailing, health };
    const isJson = given.options.has("json");
    print(isJson ? checkFileText(found) : printedCheck(found));
    if (out === undefined) return;
    const written = await write(found, out, replace);
    if (!isJson) print(`\nWritten: ${written}.\n`);
  },
};
