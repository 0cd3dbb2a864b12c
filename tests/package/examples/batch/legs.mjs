// The steady legs of one log, a line of JSON each: node legs.mjs LOG [BOAT.json]
import { readFile } from "node:fs/promises";
import {
  boatFromFile,
  degrees,
  directionOf,
  knots,
  meanDirection,
  speedOf,
  statesOnBoard,
  summariseLogs,
  UNKNOWN_BOAT,
  UnusableLog,
} from "@bothtacks/core";
import { logFile } from "@bothtacks/core/node";

const [path, boatPath] = process.argv.slice(2);
if (path === undefined) {
  console.error("usage: node legs.mjs LOG [BOAT.json]");
  process.exit(2);
}

const boat = boatPath ? boatFromFile(await readFile(boatPath, "utf8"), boatPath) : UNKNOWN_BOAT;
const { rows, legs } = await sailingOf(await logFile(path));
const states = statesOnBoard(rows, boat.settings.active, boat.computer);

/** A log that cannot be used ends the job with one line and a status that the batch engine sees. */
async function sailingOf(log) {
  try {
    return (await summariseLogs([log], boat)).sailing;
  } catch (error) {
    if (!(error instanceof UnusableLog)) throw error;
    console.error(error.message);
    process.exit(1);
  }
}

const sum = (values) => values.reduce((total, value) => total + value, 0);
const rounded = (value, digits) => (Number.isNaN(value) ? null : Number(value.toFixed(digits)));

for (const { number, kind, tack, start } of legs) {
  const own = rows.flatMap((row, index) => (row.leg === number ? [index] : []));
  const seconds = own.map((index) => rows[index].count);
  const mean = (of) => sum(own.map((index, place) => seconds[place] * of(index))) / sum(seconds);
  const [east, north] = [mean((index) => states.windEast[index]), mean((index) => states.windNorth[index])];
  const line = {
    log: path,
    leg: number,
    kind,
    tack,
    start: new Date(start * 1000).toISOString(),
    seconds: sum(seconds),
    awa_deg: rounded(
      degrees(
        meanDirection(
          own.map((index) => rows[index].mean.awa),
          seconds,
        ),
      ),
      1,
    ),
    stw_kn: rounded(knots(mean((index) => rows[index].mean.stw)), 2),
    // over the ground where the log holds GPS, else over the water
    wind_from_deg: rounded(degrees(directionOf(east, north)), 1),
    wind_kn: rounded(knots(speedOf(east, north)), 2),
  };
  process.stdout.write(`${JSON.stringify(line)}\n`);
}
