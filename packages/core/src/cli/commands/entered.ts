import type { ActiveSettings } from "../../calibration/boat.ts";
import { boatFromFile } from "../../calibration/boatFile.ts";
import { schemaOf, settingsInForce } from "../../calibration/boatHistory.ts";
import { calibrationFromFile } from "../../calibration/calibrationFile.ts";
import { CALIBRATION_FILE } from "../../calibration/calibrationSchema.ts";
import {
  EXERCISE_RECORD_FILE,
  enteredText,
  exerciseRecordFromFile,
  TO_KEY_IN_FILE,
  toKeyInFromFile,
} from "../../calibration/recordFiles.ts";
import { settingsAfterExercise, settingsChanges } from "../../calibration/settingsEntered.ts";
import { settingsAfter } from "../../calibration/startingFrom.ts";
import { addToHistory } from "../../node/boatFolder.ts";
import { readText } from "../../node/readText.ts";
import { printedEntered } from "../../report/enteredText.ts";
import type { Command } from "../command.ts";
import { InputFailure, UsageFailure } from "../failures.ts";
import { FOLDER_OPTION, folderNeeded } from "../givenFolder.ts";

/** A day or a moment in UTC, s since 1970. */
function momentIn(text: string): number {
  const isDay = /^\d{4}-\d\d-\d\d$/.test(text);
  const isMoment = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?Z$/.test(text);
  const time = isDay || isMoment ? Date.parse(text) / 1000 : Number.NaN;
  if (Number.isNaN(time))
    throw new UsageFailure(`entered: --at must be a UTC time such as 2031-06-20T18:30Z, got ${text}`);
  return time;
}

/** What stands in the instruments once a file's corrections are keyed in. */
function settingsBy(text: string, file: string, present: ActiveSettings): ActiveSettings {
  const schema = schemaOf(text);
  if (schema === CALIBRATION_FILE.schema) return settingsAfter(calibrationFromFile(text, file));
  if (schema === TO_KEY_IN_FILE.schema) return toKeyInFromFile(text, file).settings;
  if (schema !== EXERCISE_RECORD_FILE.schema) return boatFromFile(text, file).settings;
  const record = exerciseRecordFromFile(text, file);
  if (record.total === undefined)
    throw new InputFailure(
      `${file}: what ${record.exercise} finds is none of the settings that logs are read with, so there is nothing to write down; the boat's history keeps what was found`,
    );
  const after = settingsAfterExercise(record, present);
  if (!after)
    throw new InputFailure(
      `${file}: counts from another start than what stands in the instruments: one from the sensors without corrections, one from unknown ones`,
    );
  return after;
}

/** Writes down what was keyed in, and since when: the active settings of every later log. */
export const entered: Command = {
  shape: {
    name: "entered",
    purpose: "writes down what was keyed in and since when: the active settings of every later log",
    operands: ["FILE"],
    options: {
      boat: FOLDER_OPTION,
      at: {
        value: "TIME",
        meaning: "when it was keyed in, a day or a time in UTC such as 2031-06-20T18:30Z; now, unless told",
      },
    },
  },

  async execute(given, { print }) {
    const [file = ""] = given.operands;
    const folder = await folderNeeded(given, "entered");
    const made = Date.now() / 1000;
    const when = given.options.get("at");
    const at = when === undefined ? made : momentIn(when);
    const present = settingsInForce(folder.history, folder.boat, at);
    const settings = settingsBy(await readText(file), file, present);
    if (settings.base === "unknown corrections" && present.base !== settings.base)
      throw new InputFailure(
        `${file}: counts from unknown corrections, but what stood in the instruments is known; calibrate with --boat ${folder.path} first`,
      );
    const record = { at, made, madeFrom: [file], settings };
    const path = await addToHistory(folder.path, "entered", at, enteredText(record));
    print(printedEntered(settingsChanges(present.active, settings.active), at, path));
    return undefined;
  },
};
