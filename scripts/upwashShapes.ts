/**
 * Whether upwash needs its shape (M23): boats fitted with its slope over wind speed and its broad part free within their priors, and with both held;
 * scored on another day. What a choice between the two could win at most is what the better of both leaves on each boat.
 * node --conditions=bothtacks-source --import tsx scripts/upwashShapes.ts FIRST_SEED [BOATS] [racing|tuning]
 */
import { OUTINGS } from "../packages/core/src/simulate/drawScenario.ts";
import { meanOf, rootMeanSquare, type Score, scoredBoat } from "../tests/support/scoredSails.ts";

const [first, boats = "20", outing = "racing"] = process.argv.slice(2);
const day = OUTINGS.find((name) => name === outing);
if (!Number.isInteger(Number(first ?? Number.NaN)) || !Number.isInteger(Number(boats)) || day === undefined)
  throw new RangeError(`give the first seed, how many boats, and one of ${OUTINGS.join(", ")}`);

const found = Array.from({ length: Number(boats) }, (_, place) => {
  const seed = Number(first) + place;
  const free = scoredBoat(seed, { days: [day] });
  const held = scoredBoat(seed, { days: [day], held: ["vane.upwashSlope", "vane.upwashBroad"] });
  const better = free.corrected.rms < held.corrected.rms ? free : held;
  return { free, held, better };
});

for (const kind of ["free", "held", "better"] as const) {
  const scores: readonly Score[] = found.map((boat) => boat[kind].corrected);
  const gap = (point: "upwind" | "offTheWind"): string =>
    meanOf(scores.map((score) => Math.abs(score[point]))).toFixed(2);
  console.log(
    `${kind.padEnd(7)} starboard less port ${gap("upwind")} upwind, ${gap("offTheWind")} off the wind; rms ${rootMeanSquare(scores.map(({ rms }) => rms)).toFixed(2)}`,
  );
}
