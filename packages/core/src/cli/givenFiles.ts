import type { Boat } from "../calibration/boat.ts";
import { boatFromFile, UNKNOWN_BOAT } from "../calibration/boatFile.ts";
import { settingsInForce } from "../calibration/boatHistory.ts";
import type { Calibration } from "../calibration/calibration.ts";
import { calibrationFromFile } from "../calibration/calibrationFile.ts";
import { contradiction, settingsAfter } from "../calibration/startingFrom.ts";
import { startOfLogs } from "../job/startOfLogs.ts";
import { boatFolder, isFolder } from "../node/boatFolder.ts";
import { logsAt } from "../node/logsAt.ts";
import { readText } from "../node/readText.ts";
import type { Given, OptionShape } from "./arguments.ts";
import { InputFailure } from "./failures.ts";
import { columnsOfLogs } from "./givenColumns.ts";

/** The options that say what boat a log is of, and what was keyed into its instruments. */
export const BOAT_OPTIONS: Readonly<Record<"boat" | "from", OptionShape>> = {
  boat: {
    value: "FILE",
    meaning:
      "the boat file (mast, computer, corrections already active), or the boat's folder with boat.json and her history",
  },
  from: {
    value: "CALIBRATION",
    meaning: "a calibration whose corrections were all keyed in when the log was made",
  },
};

/** The calibration in a file. @throws FileProblem, RefusedFile */
export const calibrationAt = async (path: string): Promise<Calibration> =>
  calibrationFromFile(await readText(path), path);

/** The boat in a file, or in a folder with what was in force when logs began. */
async function boatAt(path: string, logPaths: readonly string[], given: Given): Promise<Boat> {
  if (!(await isFolder(path))) return boatFromFile(await readText(path), path);
  const { boat, history } = await boatFolder(path);
  if (history.entered.length === 0) return boat;
  const columns = await columnsOfLogs(given);
  const start = await startOfLogs((await logsAt(logPaths)).map((log) => ({ ...log, ...columns })));
  if (Number.isNaN(start))
    throw new InputFailure(
      `${logPaths.join(", ")}: tells no date, so that what stood in the instruments cannot be looked up in ${path}; give a boat file with active_settings`,
    );
  return { ...boat, settings: settingsInForce(history, boat, start) };
}

/**
 * The boat of the log: its file, its folder with what was keyed in when the log was made, or that of the calibration it comes after, or one of which
 * nothing is known; with the settings that were active.
 *
 * @param otherwise the boat where no boat file is given
 * @param logPaths the logs, which tell when they were made
 * @throws FileProblem, RefusedFile, or InputFailure where boat file and calibration contradict each other, or a log tells no date
 */
export async function boatOfLog(
  given: Given,
  otherwise = UNKNOWN_BOAT,
  logPaths: readonly string[] = given.operands,
): Promise<Boat> {
  const { options } = given;
  const [boatPath, fromPath] = [options.get("boat"), options.get("from")];
  const boat = boatPath === undefined ? undefined : await boatAt(boatPath, logPaths, given);
  if (fromPath === undefined) return boat ?? otherwise;
  const from = await calibrationAt(fromPath);
  const settings = settingsAfter(from);
  const difference = boat && contradiction(boat, settings);
  if (difference !== undefined)
    throw new InputFailure(
      `${boatPath}: active_settings is not what ${fromPath} had keyed in (${difference}); give one of the two`,
    );
  return { ...(boat ?? from.boat), settings };
}
