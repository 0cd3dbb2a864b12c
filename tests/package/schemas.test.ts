/**
 * The published JSON Schemas: generated anew they are the same, and they take and refuse what the readers do.
 *
 * INPUTS: the demo's files, an invented calibration, and each of them with one thing made wrong; what is expected of a wrong file is that
 *   the reader refuses it.
 */
import { readdir, readFile } from "node:fs/promises";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { boatFromFile, boatInFile, UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { ExerciseRecord } from "../../packages/core/src/calibration/boatRecord.ts";
import {
  calibrationFileText,
  calibrationFromFile,
} from "../../packages/core/src/calibration/calibrationFile.ts";
import { columnsFromFile } from "../../packages/core/src/calibration/columnsFile.ts";
import {
  enteredFromFile,
  enteredText,
  exerciseRecordFromFile,
  exerciseRecordText,
  toKeyInFromFile,
  toKeyInText,
} from "../../packages/core/src/calibration/recordFiles.ts";
import { scenarioFromFile } from "../../packages/core/src/simulate/scenarioFile.ts";
import { fileSchemas } from "../../scripts/fileSchemas.ts";
import { fitFixture } from "../support/answerFixture.ts";
import { calibrationFixture } from "../support/calibrationFixture.ts";

const folder = new URL("../../packages/core/schemas/", import.meta.url);
const demo = (name: string): Promise<string> =>
  readFile(new URL(`../../datasets/demo/${name}`, import.meta.url), "utf8");

type Fields = Record<string, unknown>;

const isFields = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Each with one field misspelt, or with its value of another type, down to the third level. */
function* spoilt(value: Fields, depth = 3): Generator<Fields> {
  yield { ...value, nonsense: 1 };
  for (const [name, inside] of Object.entries(value)) {
    yield { ...value, [name]: Array.isArray(inside) ? {} : [] };
    if (isFields(inside) && depth > 0)
      for (const worse of spoilt(inside, depth - 1)) yield { ...value, [name]: worse };
  }
}

interface Format {
  readonly name: string;
  readonly files: readonly string[];
  readonly read: (text: string, file: string) => unknown;
}

const KEYED = { speed: { gain_port: 1.03 }, vane: { masthead_offset_deg: -2 } };

const ENTERED = { at: 1.9e9, made: 1.9e9, madeFrom: ["a.json"], settings: UNKNOWN_BOAT.settings };

const EXERCISE: ExerciseRecord = {
  ...ENTERED,
  exercise: "runs",
  given: "# exercise: runs\n",
  findings: [{ name: "channel.gain", of: "forestay", value: 1, half: 0.1 }],
  restsOn: ["boat speed"],
  notes: ["a note"],
  total: UNKNOWN_BOAT.settings.active,
};

const FORMATS: readonly Format[] = [
  { name: "entered", files: [enteredText(ENTERED)], read: enteredFromFile },
  { name: "exercise-record", files: [exerciseRecordText(EXERCISE)], read: exerciseRecordFromFile },
  { name: "to-key-in", files: [toKeyInText(ENTERED)], read: toKeyInFromFile },
  {
    name: "boat",
    files: [
      "{}",
      await demo("boat.json"),
      JSON.stringify(boatInFile(UNKNOWN_BOAT)),
      JSON.stringify({ active_settings: KEYED, rig: { foils: true } }),
    ],
    read: boatFromFile,
  },
  {
    name: "calibration",
    files: [calibrationFileText(calibrationFixture(fitFixture(), 0))],
    read: calibrationFromFile,
  },
  {
    name: "columns",
    files: [
      "{}",
      await readFile(new URL("../../datasets/recorded/lake-race-2018.columns.json", import.meta.url), "utf8"),
      JSON.stringify({
        time: { column: ["d", 2], as: { format: "day and time", order: "day-month-year", utc_offset: "Z" } },
        columns: { "3": { quantity: "heel", unit: "deg", turned: true }, x: { quantity: "none" } },
      }),
    ],
    read: columnsFromFile,
  },
  { name: "scenario", files: [await demo("scenario.json")], read: scenarioFromFile },
];

describe("the published schemas", () => {
  it("are what the command `pnpm schemas` writes", async () => {
    const published = await readdir(folder);
    expect(published.toSorted()).toEqual([...fileSchemas().keys()].toSorted());
    for (const [name, text] of fileSchemas())
      expect(await readFile(new URL(name, folder), "utf8"), name).toBe(text);
  });

  describe.each(FORMATS)("of the $name file", ({ name, files, read }) => {
    const ajv = new Ajv2020({ validateFormats: false });
    const text = fileSchemas().get(`${name}-1.schema.json`);
    const validate = ajv.compile(JSON.parse(text ?? "false"));

    it("takes what the reader takes", () => {
      for (const file of files) {
        read(file, name);
        expect(validate(JSON.parse(file)), JSON.stringify(validate.errors)).toBe(true);
      }
    });

    it("refuses what the reader refuses: a field misspelt, a value of another type", () => {
      const wrong = files.flatMap((file) => [...spoilt(JSON.parse(file))]);
      expect(wrong.length).toBeGreaterThan(20);
      for (const fields of wrong) {
        const file = JSON.stringify(fields);
        expect(() => read(file, name), file).toThrow();
        if (validate(fields)) expect.fail(`the schema takes ${file}`);
      }
    });
  });
});
