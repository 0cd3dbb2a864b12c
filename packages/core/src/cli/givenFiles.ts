import type { Boat } from "../calibration/boat.ts";
import { boatFromFile, UNKNOWN_BOAT } from "../calibration/boatFile.ts";
import type { Calibration } from "../calibration/calibration.ts";
import { calibrationFromFile } from "../calibration/calibrationFile.ts";
import { contradiction, settingsAfter } from "../calibration/startingFrom.ts";
import { readText } from "../node/readText.ts";
import type { Given, OptionShape } from "./arguments.ts";
import { InputFailure } from "./failures.ts";

/** The options that say what boat a log is of, and what was keyed into its instruments. */
export const BOAT_OPTIONS: Readonly<Record<"boat" | "from", OptionShape>> = {
  boat: {
    value: "FILE",
    meaning: "the boat file: mast, computer, what is known of corrections already active",
  },
  from: {
    value: "CALIBRATION",
    meaning: "a calibration whose corrections were all keyed in when the log was made",
  },
};

/** The calibration in a file. @throws FileProblem, RefusedFile */
export const calibrationAt = async (path: string): Promise<Calibration> =>
  calibrationFromFile(await readText(path), path);

/**
 * The boat of the log: its file, or that of the calibration it comes after, or one of which nothing is known; with the
 * settings that were active.
 *
 * @param otherwise the boat where no boat file is given
 * @throws FileProblem, RefusedFile, or InputFailure where boat file and calibration contradict each other
 */
export async function boatOfLog({ options }: Given, otherwise = UNKNOWN_BOAT): Promise<Boat> {
  const [boatPath, fromPath] = [options.get("boat"), options.get("from")];
  const boat = boatPath === undefined ? undefined : boatFromFile(await readText(boatPath), boatPath);
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
