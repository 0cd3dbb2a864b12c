/**
 * The JSON Schemas of the files, generated from what reads them (zod): what a reader takes, defaults left out.
 */
import * as z from "zod";
import { BOAT_FILE, boatSchema } from "../packages/core/src/calibration/boatFile.ts";
import { CALIBRATION_FILE, calibrationSchema } from "../packages/core/src/calibration/calibrationSchema.ts";
import { COLUMNS_FILE, columnsSchema } from "../packages/core/src/calibration/columnsFile.ts";
import {
  ENTERED_FILE,
  EXERCISE_RECORD_FILE,
  enteredSchema,
  exerciseRecordSchema,
  TO_KEY_IN_FILE,
  toKeyInSchema,
} from "../packages/core/src/calibration/recordFiles.ts";
import { settingsSchema } from "../packages/core/src/calibration/settingsFile.ts";
import { CHECK_FILE, checkSchema } from "../packages/core/src/report/checkSchema.ts";
import { SCENARIO_FILE, scenarioSchema } from "../packages/core/src/simulate/scenarioSchema.ts";

type JsonSchema = Record<string, unknown>;

const jsonSchemaOf = (schema: z.ZodType): JsonSchema => {
  const { $schema, ...body } = z.toJSONSchema(schema, { io: "input", target: "draft-2020-12" });
  return body;
};

/** Every group and every field of settings may be left out of `active_settings`: they change nothing then. */
function settingsInPart(): JsonSchema {
  const whole = jsonSchemaOf(settingsSchema) as { properties: Record<string, JsonSchema> } & JsonSchema;
  const { required, properties, ...rest } = whole;
  const groups = Object.entries(properties).map(([name, { required: _all, ...group }]) => [name, group]);
  return { ...rest, properties: Object.fromEntries(groups) };
}

/** What the reader of boat files checks by itself, since `active_settings` may be a word or an object. */
function withActiveSettings(schema: JsonSchema): JsonSchema {
  const properties = schema.properties as Record<string, JsonSchema>;
  const active = {
    default: "unknown",
    anyOf: [{ enum: ["none", "unknown"] }, settingsInPart()],
  };
  return { ...schema, properties: { ...properties, active_settings: active } };
}

interface FileFormat {
  readonly name: string;
  readonly version: number;
  readonly title: string;
  readonly schema: JsonSchema;
}

const BOAT = withActiveSettings(jsonSchemaOf(boatSchema));

/** A calibration holds its boat as a boat file does; her reader checks it. */
function withBoat(schema: JsonSchema): JsonSchema {
  const properties = schema.properties as Record<string, JsonSchema>;
  return { ...schema, properties: { ...properties, boat: BOAT } };
}

const FORMATS: readonly FileFormat[] = [
  {
    name: "boat",
    version: BOAT_FILE.version,
    title: "Boat file: what is known of a boat and of what her instruments do",
    schema: BOAT,
  },
  {
    name: "calibration",
    version: CALIBRATION_FILE.version,
    title: "Calibration file: the corrections found, with their uncertainty and where they come from",
    schema: withBoat(jsonSchemaOf(calibrationSchema)),
  },
  {
    name: "check",
    version: CHECK_FILE.version,
    title: "What check --json prints: the recording, its sensors' health, and what it can calibrate",
    schema: jsonSchemaOf(checkSchema),
  },
  {
    name: "columns",
    version: COLUMNS_FILE.version,
    title: "Mapping file: what the columns of a log in columns (CSV) hold",
    schema: jsonSchemaOf(columnsSchema),
  },
  {
    name: "entered",
    version: ENTERED_FILE.version,
    title: "What was keyed into the instruments, and since when it stands there",
    schema: jsonSchemaOf(enteredSchema),
  },
  {
    name: "exercise-record",
    version: EXERCISE_RECORD_FILE.version,
    title: "What a deliberate exercise found, with what it was made from",
    schema: jsonSchemaOf(exerciseRecordSchema),
  },
  {
    name: "scenario",
    version: SCENARIO_FILE.version,
    title: "Scenario file: a simulated sail with known faults",
    schema: jsonSchemaOf(scenarioSchema),
  },
  {
    name: "to-key-in",
    version: TO_KEY_IN_FILE.version,
    title: "What is to be keyed in, rounded as the instruments take it",
    schema: jsonSchemaOf(toKeyInSchema),
  },
];

/** Texts of the published schemas by the names of their files. */
export function fileSchemas(): ReadonlyMap<string, string> {
  return new Map(
    FORMATS.map(({ name, version, title, schema }) => [
      `${name}-${version}.schema.json`,
      `${JSON.stringify({ $schema: "https://json-schema.org/draft/2020-12/schema", title, ...schema }, undefined, 2)}\n`,
    ]),
  );
}
