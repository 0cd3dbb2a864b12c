import { boatFromFile, UNKNOWN_BOAT } from "../../calibration/boatFile.ts";
import { NO_HISTORY, settingsInForce } from "../../calibration/boatHistory.ts";
import { EXERCISE_KINDS, type ExerciseKind, type ExerciseRecord } from "../../calibration/boatRecord.ts";
import { nearestWord } from "../../calibration/nearestWord.ts";
import { exerciseRecordText } from "../../calibration/recordFiles.ts";
import { EXERCISE_DEFINITIONS } from "../../job/exercises/definitions.ts";
import { byLine, type ExerciseForm, exerciseForm, isForm } from "../../job/exercises/exerciseForm.ts";
import type { ExerciseGiven, ExerciseOutcome } from "../../job/exercises/exerciseKind.ts";
import { startOfLogs } from "../../job/startOfLogs.ts";
import { beginningOf } from "../../node/beginningOf.ts";
import { addToHistory, type BoatFolder, boatFolder, isFolder } from "../../node/boatFolder.ts";
import type { LogFile } from "../../node/logFile.ts";
import { logsAt } from "../../node/logsAt.ts";
import { readText } from "../../node/readText.ts";
import { printedExercise } from "../../report/exercises/exerciseText.ts";
import type { Seconds } from "../../units.ts";
import type { Given } from "../arguments.ts";
import type { Command } from "../command.ts";
import { InputFailure, UsageFailure } from "../failures.ts";
import { COLUMNS_OPTION, columnsOfLogs } from "../givenColumns.ts";

/** The kind of exercise that a word names. */
function kindNamed(word: string): ExerciseKind {
  const kind = EXERCISE_KINDS.find((name) => name === word);
  if (kind) return kind;
  const nearest = nearestWord(word, EXERCISE_KINDS);
  throw new UsageFailure(
    `exercise: there is no exercise "${word}"${nearest ? ` (did you mean ${nearest}?)` : ""}; "bothtacks exercises" lists them`,
  );
}

/** Operands told apart: the form that was filled in, and logs. */
async function sorted(paths: readonly string[]) {
  const forms: string[] = [];
  const logs: string[] = [];
  for (const path of paths) (isForm(await beginningOf(path)) ? forms : logs).push(path);
  const [form, second] = forms;
  if (second !== undefined) throw new UsageFailure(`exercise: two forms are given, ${form} and ${second}`);
  return { form, logs };
}

/** When the form says that it was sailed, with the time of its first row where that has one; NaN where it tells no date. */
function dateIn({ date, rows }: Readonly<Record<string, unknown>>): Seconds {
  const [first] = Array.isArray(rows) ? (rows as readonly unknown[]) : [];
  const start = (first as { readonly start?: unknown } | undefined)?.start;
  const time = typeof start === "string" && /^\d\d:\d\d/.test(start) ? `T${start.padEnd(8, ":00")}Z` : "";
  return typeof date === "string" ? Date.parse(`${date}${time}`) / 1000 : Number.NaN;
}

/** Refuses logs alone where a form is needed. @throws InputFailure */
function requireForm(kind: ExerciseKind, form: string | undefined, file: string): void {
  const { needsForm } = EXERCISE_DEFINITIONS[kind];
  if (form === undefined && needsForm !== undefined)
    throw new InputFailure(
      `${file}: holds no form, which "bothtacks exercises --form ${kind}" gives; ${needsForm}`,
    );
}

/** Logs of what a sensor is compared with. @throws UsageFailure where the exercise compares nothing */
async function referenceLogs(kind: ExerciseKind, given: Given): Promise<readonly LogFile[]> {
  const path = given.options.get("reference");
  if (path === undefined) return [];
  if (!EXERCISE_DEFINITIONS[kind].takesReference)
    throw new UsageFailure(`exercise: ${kind} is not compared with another log, so --reference has no place`);
  const columns = await columnsOfLogs(given, "reference-columns");
  return (await logsAt([path])).map((log) => ({ ...log, ...columns }));
}

const NO_FORM: ExerciseForm = { fields: {} };

async function folderOrBoat(path: string | undefined): Promise<Omit<BoatFolder, "path"> & { path?: string }> {
  if (path === undefined) return { boat: UNKNOWN_BOAT, history: NO_HISTORY };
  if (await isFolder(path)) return boatFolder(path);
  return { boat: boatFromFile(await readText(path), path), history: NO_HISTORY };
}

/** Whether a form still holds the example that it came with. */
const isExample = (kind: ExerciseKind, fields: ExerciseGiven["fields"]): boolean => {
  const { form } = EXERCISE_DEFINITIONS[kind];
  return form !== "" && JSON.stringify(exerciseForm(form, "", kind).fields) === JSON.stringify(fields);
};

/** Works an exercise out; what refuses its form names the form's line. */
async function workedOut(kind: ExerciseKind, given: ExerciseGiven): Promise<ExerciseOutcome> {
  try {
    return await EXERCISE_DEFINITIONS[kind].evaluate(given);
  } catch (error) {
    throw byLine(error, given.lines);
  }
}

const EXAMPLE = "The form still holds the example that it came with: invented numbers, not yours.";

const recordOf = (
  kind: ExerciseKind,
  outcome: Extract<ExerciseOutcome, { status: "solved" }>,
  rest: Pick<ExerciseRecord, "made" | "madeFrom" | "given" | "settings">,
): ExerciseRecord => ({
  exercise: kind,
  at: outcome.at,
  findings: outcome.findings,
  ...(outcome.total ? { total: outcome.total } : {}),
  restsOn: outcome.restsOn,
  notes: outcome.notes,
  ...rest,
});

/** Works out a deliberate exercise, and keeps it in the boat's history. */
export const exercise: Command = {
  shape: {
    name: "exercise",
    purpose:
      "works out a deliberate exercise, typed or logged: what it settles of its sensor, with intervals",
    operands: ["KIND", "FILE…"],
    options: {
      boat: {
        value: "FILE",
        meaning: "the boat file, or the boat's folder: what is found is then kept in her history",
      },
      ...COLUMNS_OPTION,
      reference: {
        value: "LOG",
        meaning: "anemometer: the log of the station, or of the other sensor, that it is compared with",
      },
      "reference-columns": {
        value: "FILE",
        meaning: "the mapping file of that log, where it is a CSV whose headers do not tell what it holds",
      },
    },
  },

  async execute(given, { print, signal }) {
    const { operands, options } = given;
    const [word = "", ...paths] = operands;
    const kind = kindNamed(word);
    const { form, logs: logPaths } = await sorted(paths);
    const { boat, history, path } = await folderOrBoat(options.get("boat"));
    const file = form ?? logPaths.join(", ");
    const text = form === undefined ? "" : await readText(form);
    const { fields, lines } = form === undefined ? NO_FORM : exerciseForm(text, form, kind);
    requireForm(kind, form, file);
    const example = isExample(kind, fields) ? [EXAMPLE] : [];
    if (example.length > 0 && path !== undefined)
      throw new InputFailure(`${file}: ${EXAMPLE} It is not kept in the boat's history.`);
    const columns = await columnsOfLogs(given);
    const logs = (await logsAt(logPaths)).map((log) => ({ ...log, ...columns }));
    const logged = logs.length > 0 ? await startOfLogs(logs, { signal }) : Number.NaN;
    const reference = await referenceLogs(kind, given);
    const when = Number.isNaN(logged) ? dateIn(fields) : logged;
    const settings =
      history.entered.length > 0
        ? settingsInForce(history, boat, Number.isNaN(when) ? Infinity : when)
        : boat.settings;
    const outcome = await workedOut(kind, {
      fields,
      file,
      ...(lines ? { lines } : {}),
      logs,
      reference,
      boat,
      settings,
      run: { signal },
    });
    if (outcome.status === "unsolved") throw new InputFailure(`${file}: ${outcome.reason}`);
    const answer = { ...outcome, notes: [...example, ...outcome.notes] };
    print(printedExercise(EXERCISE_DEFINITIONS[kind], answer, settings.base));
    if (path === undefined) return undefined;
    const made = Date.now() / 1000;
    const at = Number.isNaN(outcome.at) ? made : outcome.at;
    const record = recordOf(kind, { ...outcome, at }, { made, madeFrom: paths, given: text, settings });
    print(`\nKept in ${await addToHistory(path, kind, at, exerciseRecordText(record))}.\n`);
    return undefined;
  },
};
