import { enteredBetween } from "../calibration/boatHistory.ts";
import { toKeyInText } from "../calibration/recordFiles.ts";
import type { Calibrated } from "../job/answerOf.ts";
import { toKeyIn } from "../job/toKeyIn.ts";
import { addToHistory, type BoatFolder, boatFolder, isFolder } from "../node/boatFolder.ts";
import type { RecordingSummary } from "../report/answer.ts";
import type { Given, OptionShape } from "./arguments.ts";
import { InputFailure, UsageFailure } from "./failures.ts";

/** The option that says whose history is asked for. */
export const FOLDER_OPTION: OptionShape = {
  value: "DIR",
  required: true,
  meaning: "the boat's folder: boat.json, and her history, which calibrate, exercise and entered add to",
};

/** The boat's folder, where `--boat` names one rather than a file. @throws FileProblem, RefusedFile */
export async function folderGiven({ options }: Given): Promise<BoatFolder | undefined> {
  const path = options.get("boat");
  return path !== undefined && (await isFolder(path)) ? boatFolder(path) : undefined;
}

/** The boat's folder, which must be one. @throws UsageFailure, FileProblem, RefusedFile */
export async function folderNeeded(given: Given, command: string): Promise<BoatFolder> {
  const folder = await folderGiven(given);
  if (!folder)
    throw new UsageFailure(`${command}: --boat must be the boat's folder, got ${given.options.get("boat")}`);
  return folder;
}

/** Refuses a recording over whose time something was keyed in. @throws InputFailure */
export function requireOneState(
  { history }: BoatFolder,
  recording: Pick<RecordingSummary, "files" | "start" | "end">,
): void {
  const at = enteredBetween(history, recording.start, recording.end);
  if (at !== undefined)
    throw new InputFailure(
      `${recording.files.join(", ")}: something was keyed in at ${new Date(at * 1000).toISOString()}, while this was recorded: readings of two kinds; give the logs of before and after apart`,
    );
}

/**
 * Keeps an answer in the boat's history: the calibration, and what is to be keyed in.
 *
 * @param calibrationText the text of its file
 * @returns the paths of both. @throws FileProblem
 */
export async function keepAnswer(
  { path }: BoatFolder,
  calibrated: Calibrated,
  calibrationText: string,
  made: number,
): Promise<readonly string[]> {
  const { start } = calibrated.answer.recording;
  const kept = [await addToHistory(path, "calibration", start, calibrationText)];
  const proposal = toKeyIn(calibrated, made);
  if (proposal) kept.push(await addToHistory(path, "to-key-in", start, toKeyInText(proposal)));
  return kept;
}
