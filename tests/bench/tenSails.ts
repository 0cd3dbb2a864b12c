/**
 * Ten simulated boats with faults of every kind, each fitted on what was sailed on one day or several and scored on another day's racing in
 * another wind: `pnpm score -- SEED [DAYS]`, DAYS being "racing", "tuning", "training" or several of them joined by "+". Errors of
 * true wind direction over the water, in degrees, over means of 30 s of steady sailing.
 */
import { OUTINGS, type Outing } from "../../packages/core/src/simulate/drawScenario.ts";
import { meanOf, rootMeanSquare, type Score, scoredBoat } from "../support/scoredSails.ts";

/** pnpm hands on the "--" that npm keeps to itself. */
const [seedGiven, daysGiven = "racing"] = process.argv.slice(2).filter((argument) => argument !== "--");
const first = Number(seedGiven ?? Number.NaN);
const isOuting = (word: string): word is Outing => OUTINGS.some((outing) => outing === word);
const words = daysGiven.split("+");
const days = words.filter(isOuting);
if (!Number.isInteger(first) || days.length < words.length) {
  process.stderr.write(
    'usage: pnpm score -- SEED [DAYS] (a whole number, from which ten boats are drawn; "racing", "tuning", "training" or several such days, as "tuning+racing")\n',
  );
  process.exit(2);
}
const line = (name: string, { upwind, offTheWind, rms }: Score): string =>
  `  ${name.padEnd(12)} starboard less port ${upwind.toFixed(2).padStart(6)} upwind, ${offTheWind.toFixed(2).padStart(6)} off the wind; rms ${rms.toFixed(2)}`;
const boats = Array.from({ length: 10 }, (_, place) => {
  const boat = scoredBoat(first + place, { days });
  const { seed, corrected, expected, uncorrected, best } = boat;
  process.stdout.write(
    `seed ${seed}, expected sd ${expected.upwind.toFixed(2)}, ${expected.offTheWind.toFixed(2)}\n${line("uncorrected", uncorrected)}\n${line("corrected", corrected)}\n${line("best", best)}\n`,
  );
  return boat;
});
process.stdout.write(`fitted on ${days.join(" and ")}\n`);
for (const kind of ["uncorrected", "corrected", "best"] as const) {
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
