import * as z from "zod";
import { type EnteredRecord, EXERCISE_KINDS, type ExerciseRecord } from "./boatRecord.ts";
import { checked, versionedObject } from "./checkedFile.ts";
import { edgeFromSi, siFromEdge } from "./edgeUnits.ts";
import { FINDING_NAMES, FINDING_UNITS, type Finding, SENSOR_NAMES } from "./findings.ts";
import { RefusedFile } from "./refusedFile.ts";
import { settingsFromFile, settingsInFile, settingsSchema } from "./settingsFile.ts";

export const EXERCISE_RECORD_FILE = { schema: "bothtacks-exercise-record", version: 1 } as const;
export const ENTERED_FILE = { schema: "bothtacks-entered", version: 1 } as const;
export const TO_KEY_IN_FILE = { schema: "bothtacks-to-key-in", version: 1 } as const;

const moment = z.iso.datetime();
const base = z.enum(["sensors without corrections", "unknown corrections"]);

const findingSchema = z.strictObject({
  name: z.enum(FINDING_NAMES),
  of: z.string().optional(),
  unit: z.string(),
  value: z.number(),
  /** Half the 95 % interval. */
  interval: z.number().min(0),
});

/** The record of an exercise as its file holds it. */
export const exerciseRecordSchema = z.strictObject({
  schema: z.literal(EXERCISE_RECORD_FILE.schema),
  version: z.literal(EXERCISE_RECORD_FILE.version),
  exercise: z.enum(EXERCISE_KINDS),
  at: moment,
  made: moment,
  made_from: z.array(z.string()),
  given: z.string(),
  base,
  active: settingsSchema,
  findings: z.array(findingSchema),
  total: settingsSchema.optional(),
  rests_on: z.array(z.enum(SENSOR_NAMES)),
  notes: z.array(z.string()),
});

/** What was keyed in, as its file holds it. */
export const enteredSchema = z.strictObject({
  schema: z.literal(ENTERED_FILE.schema),
  version: z.literal(ENTERED_FILE.version),
  /** Since when it stands in the instruments. */
  at: moment,
  made: moment,
  made_from: z.array(z.string()),
  base,
  active: settingsSchema,
});

/** What is to be keyed in, as its file holds it. */
export const toKeyInSchema = z.strictObject({
  schema: z.literal(TO_KEY_IN_FILE.schema),
  version: z.literal(TO_KEY_IN_FILE.version),
  made: moment,
  made_from: z.array(z.string()),
  base,
  /** What will be active in the instruments once all is keyed in; to be changed where something else was. */
  active: settingsSchema,
});

const written = (time: number): string => new Date(Math.round(time * 1000)).toISOString();
const read = (text: string): number => Date.parse(text) / 1000;
const json = (file: unknown): string => `${JSON.stringify(file, undefined, 2)}\n`;

const findingInFile = ({ name, of, value, half }: Finding): z.output<typeof findingSchema> => ({
  name,
  ...(of === undefined ? {} : { of }),
  unit: FINDING_UNITS[name],
  value: edgeFromSi(value, FINDING_UNITS[name]),
  interval: edgeFromSi(half, FINDING_UNITS[name]),
});

function findingFromFile(finding: z.output<typeof findingSchema>, index: number, file: string): Finding {
  const unit = FINDING_UNITS[finding.name];
  if (finding.unit !== unit)
    throw new RefusedFile(
      file,
      `findings[${index}].unit`,
      JSON.stringify(unit),
      JSON.stringify(finding.unit),
    );
  return {
    name: finding.name,
    ...(finding.of === undefined ? {} : { of: finding.of }),
    value: siFromEdge(finding.value, unit),
    half: siFromEdge(finding.interval, unit),
  };
}

/**
 * The text of an exercise's record: JSON, versioned, in degrees and knots. @throws RangeError for times that are none
 *
 * @example
 * const record = { exercise: "depth", at: 0, made: 0, madeFrom: [], given: "", settings: boat.settings, findings: [], restsOn: [], notes: [] };
 * exerciseRecordFromFile(exerciseRecordText(record), "depth.json").exercise // "depth"
 */
export function exerciseRecordText(record: ExerciseRecord): string {
  const file: z.output<typeof exerciseRecordSchema> = {
    ...EXERCISE_RECORD_FILE,
    exercise: record.exercise,
    at: written(record.at),
    made: written(record.made),
    made_from: [...record.madeFrom],
    given: record.given,
    base: record.settings.base,
    active: settingsInFile(record.settings.active),
    findings: record.findings.map(findingInFile),
    ...(record.total ? { total: settingsInFile(record.total) } : {}),
    rests_on: [...record.restsOn],
    notes: [...record.notes],
  };
  return json(file);
}

/**
 * The inverse of `exerciseRecordText`. @throws RefusedFile naming file, field, expected and received
 *
 * @example
 * const record = { exercise: "depth", at: 0, made: 0, madeFrom: [], given: "", settings: boat.settings, findings: [], restsOn: [], notes: [] };
 * exerciseRecordFromFile(exerciseRecordText(record), "depth.json").at // 0
 */
export function exerciseRecordFromFile(text: string, file: string): ExerciseRecord {
  const fields = checked(
    exerciseRecordSchema,
    versionedObject(text, file, EXERCISE_RECORD_FILE, "refused"),
    file,
  );
  return {
    exercise: fields.exercise,
    at: read(fields.at),
    made: read(fields.made),
    madeFrom: fields.made_from,
    given: fields.given,
    settings: { base: fields.base, active: settingsFromFile(fields.active) },
    findings: fields.findings.map((finding, index) => findingFromFile(finding, index, file)),
    ...(fields.total ? { total: settingsFromFile(fields.total) } : {}),
    restsOn: fields.rests_on,
    notes: fields.notes,
  };
}

/**
 * The text of the file of what was keyed in. @throws RangeError for times that are none
 *
 * @example
 * JSON.parse(enteredText({ at: 0, made: 0, madeFrom: [], settings: boat.settings })).schema // "bothtacks-entered"
 */
export function enteredText({ at, made, madeFrom, settings }: EnteredRecord): string {
  const file: z.output<typeof enteredSchema> = {
    ...ENTERED_FILE,
    at: written(at),
    made: written(made),
    made_from: [...madeFrom],
    base: settings.base,
    active: settingsInFile(settings.active),
  };
  return json(file);
}

/**
 * The inverse of `enteredText`. @throws RefusedFile naming file, field, expected and received
 *
 * @example
 * enteredFromFile(enteredText({ at: 5, made: 6, madeFrom: [], settings: boat.settings }), "entered.json").at // 5
 */
export function enteredFromFile(text: string, file: string): EnteredRecord {
  const fields = checked(enteredSchema, versionedObject(text, file, ENTERED_FILE, "refused"), file);
  return {
    at: read(fields.at),
    made: read(fields.made),
    madeFrom: fields.made_from,
    settings: { base: fields.base, active: settingsFromFile(fields.active) },
  };
}

/** What stands in the instruments once the advice is followed, rounded as they take it: to be changed by hand where something else was keyed in. */
export type ToKeyIn = Omit<EnteredRecord, "at">;

/** The text of the file of what is to be keyed in. @throws RangeError for times that are none */
export function toKeyInText({ made, madeFrom, settings }: ToKeyIn): string {
  const file: z.output<typeof toKeyInSchema> = {
    ...TO_KEY_IN_FILE,
    made: written(made),
    made_from: [...madeFrom],
    base: settings.base,
    active: settingsInFile(settings.active),
  };
  return json(file);
}

/** The inverse of `toKeyInText`. @throws RefusedFile naming file, field, expected and received */
export function toKeyInFromFile(text: string, file: string): ToKeyIn {
  const fields = checked(toKeyInSchema, versionedObject(text, file, TO_KEY_IN_FILE, "refused"), file);
  return {
    made: read(fields.made),
    madeFrom: fields.made_from,
    settings: { base: fields.base, active: settingsFromFile(fields.active) },
  };
}
