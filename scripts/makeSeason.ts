/**
 * Writes the calibrations of datasets/demo/season anew: the demonstration boat on three days of a season, her masthead unit knocked
 * between the second and the third. Some half a minute:
 * node --conditions=bothtacks-source --import tsx scripts/makeSeason.ts
 */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { boatFromFile } from "../packages/core/src/calibration/boatFile.ts";
import { answerFiles } from "../packages/core/src/job/answerFiles.ts";
import { calibrateLogs } from "../packages/core/src/job/calibrateLogs.ts";
import { anotherDay } from "../packages/core/src/simulate/drawScenario.ts";
import type { Scenario } from "../packages/core/src/simulate/scenario.ts";
import { linesOfSail } from "../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../packages/core/src/simulate/simulatedSail.ts";
import { radians } from "../packages/core/src/units.ts";
import { DEMO_SCENARIO } from "./demo.ts";

const DAY = 86_400;
const SECONDS = 7200;
/** How far the unit is turned by the knock, and to which side: the reading goes to starboard. */
const KNOCK = radians(4);

const demo = new URL("../datasets/demo/", import.meta.url);
const folder = new URL("season/", demo);

/** Another of the demonstration boat's days, so many days after the first. */
const dayOf = (seed: number, days: number, motoring: boolean): Scenario => ({
  ...anotherDay(DEMO_SCENARIO, seed, { seconds: SECONDS, motoring }),
  start: DEMO_SCENARIO.start + days * DAY,
});

const knocked = (day: Scenario): Scenario => ({
  ...day,
  faults: {
    ...day.faults,
    vane: { ...day.faults.vane, mastheadOffset: day.faults.vane.mastheadOffset + KNOCK },
  },
});

const DAYS: Readonly<Record<string, Scenario>> = {
  june: { ...DEMO_SCENARIO },
  july: dayOf(20_260_718, 35, true),
  september: knocked(dayOf(20_260_905, 84, true)),
};

const boat = boatFromFile(readFileSync(new URL("boat.json", demo), "utf8"), "boat.json");

async function calibrationText(name: string, day: Scenario): Promise<string> {
  const text = [...linesOfSail(simulatedSail(day))].map((line) => `${line}\r\n`).join("");
  const bytes = Buffer.from(text, "latin1");
  const chunks = {
    async *[Symbol.asyncIterator]() {
      yield new Uint8Array(bytes);
    },
  };
  const calibrated = await calibrateLogs([{ name: `${name}.nmea`, bytes: bytes.length, chunks }], boat);
  const files = answerFiles(calibrated, "", day.start + DAY);
  if (files === undefined) throw new Error(`${name} must be solved`);
  return files["calibration.json"];
}

mkdirSync(folder, { recursive: true });
for (const [name, day] of Object.entries(DAYS))
  writeFileSync(new URL(`${name}.json`, folder), await calibrationText(name, day));
