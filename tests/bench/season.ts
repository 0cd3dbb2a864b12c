/**
 * Writes the logs of a season that nobody sailed, one file a day: `node --conditions=bothtacks-source --import tsx
 * tests/bench/season.ts FOLDER SENTENCES`.
 */
import { closeSync, mkdirSync, openSync, writeSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { anotherDay, drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import type { Scenario } from "../../packages/core/src/simulate/scenario.ts";
import { linesOfSail } from "../../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";

const DAY = 86_400;
const SEED = 20_310_614;

/** Five hours under way, of which some under power. */
const SECONDS_IN_A_DAY_OUT = 18_000;

/** Lines are written in pieces of so many characters. */
const PIECE = 1 << 20;

/** A boat with wind and attitude four times a second, and the true wind of her own computer: some 15 sentences a second. */
function boatOfSeason(): Scenario {
  const drawn = drawScenario(SEED);
  return { ...drawn, log: { ...drawn.log, windRate: 4, heelRate: 4, onboardTrueWind: true } };
}

const dayOf = (boat: Scenario, day: number): Scenario => ({
  ...anotherDay(boat, SEED + day, { seconds: SECONDS_IN_A_DAY_OUT, motoring: day % 3 === 0 }),
  start: boat.start + day * DAY,
});

/** Writes one day, or as many lines of it as are still wanted; returns how many sentences, and bytes. */
function writeDay(path: string, day: Scenario, wanted: number): readonly [sentences: number, bytes: number] {
  const file = openSync(path, "w");
  let [sentences, bytes, piece] = [0, 0, ""];
  for (const line of linesOfSail(simulatedSail(day))) {
    piece += `${line}\r\n`;
    sentences += 1;
    if (sentences >= wanted) break;
    if (piece.length < PIECE) continue;
    bytes += writeSync(file, piece, null, "latin1");
    piece = "";
  }
  bytes += writeSync(file, piece, null, "latin1");
  closeSync(file);
  return [sentences, bytes];
}

/** Writes so many sentences of a season into a folder, a file a day, dates advancing. */
export function writeSeason(
  folder: string,
  sentences: number,
): { readonly days: number; readonly bytes: number } {
  mkdirSync(folder, { recursive: true });
  const boat = boatOfSeason();
  let [left, bytes, days] = [sentences, 0, 0];
  while (left > 0) {
    const day = dayOf(boat, days);
    const name = `${new Date(day.start * 1000).toISOString().slice(0, 10)}.nmea`;
    const [written, size] = writeDay(join(folder, name), day, left);
    left -= written;
    bytes += size;
    days += 1;
  }
  return { days, bytes };
}

const [, program = "", folder, sentences] = process.argv;
if (import.meta.url === pathToFileURL(program).href && folder !== undefined) {
  const { days, bytes } = writeSeason(folder, Number(sentences));
  console.log(`${folder}: ${days} days, ${(bytes / 1e6).toFixed(0)} MB`);
}
