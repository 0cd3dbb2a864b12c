/**
 * Ten simulated boats with faults of every kind, each fitted on one afternoon (and on two) and scored on another day in another wind:
 * `pnpm score -- SEED`. Errors of true wind direction over the water, in degrees, over means of 30 s of steady sailing.
 */
import { meanOf, rootMeanSquare, type Score, scoreAfterTwoDays, scoredBoat } from "../support/scoredSails.ts";

/** pnpm hands on the "--" that npm keeps to itself. */
const [given] = process.argv.slice(2).filter((argument) => argument !== "--");
const first = Number(given ?? Number.NaN);
if (!Number.isInteger(first)) {
  process.stderr.write("usage: pnpm score -- SEED (a whole number; ten boats are drawn from it)\n");
  process.exit(2);
}
const line = (name: string, { upwind, offTheWind, rms }: Score): string =>
  `  ${name.padEnd(12)} starboard less port ${upwind.toFixed(2).padStart(6)} upwind, ${offTheWind.toFixed(2).padStart(6)} off the wind; rms ${rms.toFixed(2)}`;
const boats = Array.from({ length: 10 }, (_, place) => {
  const boat = { ...scoredBoat(first + place), twoDays: scoreAfterTwoDays(first + place) };
  const { seed, corrected, expected, uncorrected, best, twoDays } = boat;
  process.stdout.write(
    `seed ${seed}, expected sd ${expected.upwind.toFixed(2)}, ${expected.offTheWind.toFixed(2)}\n`,
  );
  process.stdout.write(
    `${line("uncorrected", uncorrected)}\n${line("corrected", corrected)}\n${line("two days", twoDays)}\n${line("best", best)}\n`,
  );
  return boat;
});
for (const kind of ["uncorrected", "corrected", "twoDays", "best"] as const) {
  const scores = boats.map((boat) => boat[kind]);
  const gap = (point: "upwind" | "offTheWind") => meanOf(scores.map((score) => Math.abs(score[point])));
  process.stdout.write(
    `${kind.padEnd(12)} mean |starboard less port| ${gap("upwind").toFixed(2)} upwind, ${gap("offTheWind").toFixed(2)} off the wind; rms ${rootMeanSquare(scores.map(({ rms }) => rms)).toFixed(2)}\n`,
  );
}
const ratios = (point: "upwind" | "offTheWind") =>
  boats.map(({ corrected, expected }) => corrected[point] / expected[point]);
process.stdout.write(
  `error over expected sd, rms: ${rootMeanSquare(ratios("upwind")).toFixed(2)} upwind, ${rootMeanSquare(ratios("offTheWind")).toFixed(2)} off the wind\n`,
);
