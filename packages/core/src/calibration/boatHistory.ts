import type { Seconds } from "../units.ts";
import type { ActiveSettings, Boat } from "./boat.ts";
import type { EnteredRecord, ExerciseRecord } from "./boatRecord.ts";
import type { Calibration } from "./calibration.ts";
import { calibrationFromFile } from "./calibrationFile.ts";
import { CALIBRATION_FILE } from "./calibrationSchema.ts";
import {
  ENTERED_FILE,
  EXERCISE_RECORD_FILE,
  enteredFromFile,
  exerciseRecordFromFile,
  TO_KEY_IN_FILE,
} from "./recordFiles.ts";
import { RefusedFile, shown } from "./refusedFile.ts";

/** Everything that is kept of a boat's calibrating, each with the name of its file, in the order of the evidence. */
export interface BoatHistory {
  readonly calibrations: readonly { readonly file: string; readonly calibration: Calibration }[];
  readonly exercises: readonly { readonly file: string; readonly record: ExerciseRecord }[];
  readonly entered: readonly { readonly file: string; readonly record: EnteredRecord }[];
}

/**
 * The history of a boat of which nothing was kept.
 *
 * @example
 * evidenceIn(NO_HISTORY).length // 0
 */
export const NO_HISTORY: BoatHistory = { calibrations: [], exercises: [], entered: [] };

const SCHEMA = /"schema"\s*:\s*"([^"]*)"/;

/** The schema that a text of a file of ours names; empty for none. Never throws. */
export const schemaOf = (text: string): string => SCHEMA.exec(text)?.[1] ?? "";

/**
 * The history that some files hold, each told by the schema that it names.
 *
 * @throws RefusedFile for a file of another schema or version, or one that does not hold what it must
 *
 * @example
 * boatHistoryOf([{ file: "a.json", text: calibrationFileText(calibration) }]).calibrations.length // 1
 */
export function boatHistoryOf(
  files: readonly { readonly file: string; readonly text: string }[],
): BoatHistory {
  const calibrations: { file: string; calibration: Calibration }[] = [];
  const exercises: { file: string; record: ExerciseRecord }[] = [];
  const entered: { file: string; record: EnteredRecord }[] = [];
  const known = [CALIBRATION_FILE, EXERCISE_RECORD_FILE, ENTERED_FILE, TO_KEY_IN_FILE].map(
    (one) => one.schema,
  );
  for (const { file, text } of files) {
    const schema = schemaOf(text);
    if (schema === CALIBRATION_FILE.schema)
      calibrations.push({ file, calibration: calibrationFromFile(text, file) });
    else if (schema === EXERCISE_RECORD_FILE.schema)
      exercises.push({ file, record: exerciseRecordFromFile(text, file) });
    else if (schema === ENTERED_FILE.schema) entered.push({ file, record: enteredFromFile(text, file) });
    // what was only proposed is no evidence, and nothing that stands
    else if (schema !== TO_KEY_IN_FILE.schema)
      throw new RefusedFile(
        file,
        "schema",
        `one of ${known.map((name) => `"${name}"`).join(", ")}`,
        shown(schema),
      );
  }
  return {
    calibrations: calibrations.sort(
      (one, other) => one.calibration.recording.start - other.calibration.recording.start,
    ),
    exercises: exercises.sort((one, other) => one.record.at - other.record.at),
    // what was entered for the same moment twice: the later word counts
    entered: entered.sort(
      (one, other) => one.record.at - other.record.at || one.record.made - other.record.made,
    ),
  };
}

/**
 * M135. What was active in the instruments at a time: what was last keyed in by then; before that, what the boat file says. Never throws.
 *
 * @example
 * settingsInForce(NO_HISTORY, boat, 0) === boat.settings // true
 */
export function settingsInForce({ entered }: BoatHistory, boat: Boat, time: Seconds): ActiveSettings {
  const last = entered.filter(({ record }) => record.at <= time).at(-1);
  return last ? last.record.settings : boat.settings;
}

/** When something was keyed in after a time and before another; undefined where nothing was. Never throws. */
export const enteredBetween = ({ entered }: BoatHistory, from: Seconds, to: Seconds): Seconds | undefined =>
  entered.find(({ record }) => record.at > from && record.at < to)?.record.at;

/** A file's name for what belongs to a moment, which no file that is there has: "20310614T130500Z-runs.json". */
export function recordFileName(kind: string, at: Seconds, taken: readonly string[]): string {
  const moment = new Date(Math.round(at) * 1000).toISOString().replaceAll(/[-:]|\.\d+/g, "");
  for (let count = 1; ; count++) {
    const name = `${moment}-${kind}${count === 1 ? "" : `-${count}`}.json`;
    if (!taken.includes(name)) return name;
  }
}
