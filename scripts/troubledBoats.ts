/**
 * What sensors in trouble do to the corrections, and what leaving the troubles out does (M90 to M95): boats fitted on a day on which
 * something happened, all rows used and troubles left out, and on the same day without it; scored on another day in another wind.
 * Prints the rms error of the true wind direction (°) of each. `node --conditions=bothtacks-source --import tsx
 * scripts/troubledBoats.ts FIRST_SEED BOATS`
 */
import { fitBoat } from "../packages/core/src/fit/fitBoat.ts";
import { sailingWithoutSteps } from "../packages/core/src/fit/stepTroubles.ts";
import type { LegRow } from "../packages/core/src/sailing/legRow.ts";
import { mergedSailing } from "../packages/core/src/sailing/mergedSailing.ts";
import { SailingSummary } from "../packages/core/src/sailing/summary.ts";
import { anotherDay, drawScenario } from "../packages/core/src/simulate/drawScenario.ts";
import type { SensorTrouble, TroubledSensor } from "../packages/core/src/simulate/sensorTroubles.ts";
import { radians } from "../packages/core/src/units.ts";
import {
  requireSolved,
  rootMeanSquare,
  type SeenSail,
  scoreOf,
  seenSail,
} from "../tests/support/scoredSails.ts";

const EVER = 90_000;

const frozen = (sensor: TroubledSensor, minutes: number): SensorTrouble => ({
  kind: "frozen",
  sensor,
  at: 3000,
  seconds: 60 * minutes,
});

const turned = (
  sensor: "vane" | "compass" | "heel",
  degrees: number,
  at: number,
  seconds: number,
): SensorTrouble => ({ kind: "turned", sensor, angle: radians(degrees), at, seconds });

const fouled = (share: number, minutes: number): SensorTrouble => ({
  kind: "fouled",
  share,
  at: 3000,
  seconds: 60 * minutes,
});

const TROUBLES: Readonly<Record<string, readonly SensorTrouble[]>> = {
  "vane frozen 20 min": [frozen("vane", 20)],
  "vane and anemometer frozen 20 min": [frozen("vane", 20), frozen("anemometer", 20)],
  "compass frozen 15 min": [frozen("compass", 15)],
  "wheel stopped 10 min": [fouled(0, 10)],
  "wheel 15 % low 20 min": [fouled(0.85, 20)],
  "wheel 30 % low 40 min": [fouled(0.7, 40)],
  "compass thrown 10° 20 min": [turned("compass", 10, 3000, 1200)],
  "compass thrown 8° for good": [turned("compass", 8, 5500, EVER)],
  "vane knocked 7° for good": [turned("vane", 7, 5500, EVER)],
  "heel sensor knocked 8° for good": [turned("heel", 8, 5500, EVER)],
};

/** Rows as they are if nobody looks for troubles. */
function rowsUncured({ blocks }: SeenSail): readonly LegRow[] {
  const summary = new SailingSummary();
  for (const block of blocks) summary.push(block);
  const part = summary.finish();
  return mergedSailing([{ ...part, jumps: [], watched: { ...part.watched, stays: [] } }]).rows;
}

const [first = 9100, boats = 4] = process.argv.slice(2).map(Number);
const errors = new Map<string, number[][]>();

for (let seed = first; seed < first + boats; seed++) {
  const scenario = drawScenario(seed);
  const other = seenSail(anotherDay(scenario, seed + 1_000_000));
  const error = (rows: readonly LegRow[]): number => {
    const fit = fitBoat(rows, { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true });
    return scoreOf(other, requireSolved(fit).settings).rms;
  };
  const healthy = error(seenSail(scenario).sailing.rows);
  for (const [name, troubles] of Object.entries(TROUBLES)) {
    const seen = seenSail({ ...scenario, troubles });
    const found = [healthy, error(rowsUncured(seen)), error(sailingWithoutSteps(seen.sailing).rows)];
    errors.set(name, [...(errors.get(name) ?? []), found]);
  }
}

console.log("trouble | without it | with it | found and left out");
for (const [name, found] of errors) {
  const columns = [0, 1, 2].map((place) => rootMeanSquare(found.map((one) => one[place]!)).toFixed(2));
  console.log([name, ...columns].join(" | "));
}
