/**
 * The traps of fitting a boat's wind (M181), each with and without its way out: error and standard deviation, over some seeds.
 * node --conditions=bothtacks-source --import tsx scripts/traps.ts [FIRST_SEED] [SEEDS]
 */
import { frozenSensor } from "../tests/support/frozenSensor.ts";
import { meanOf, rootMeanSquare } from "../tests/support/scoredSails.ts";
import {
  blindSymmetry,
  certainIntercept,
  constantAngle,
  farApart,
  knotsAndLogarithms,
  shear,
  type Told,
  withoutSymmetry,
} from "../tests/support/traps.ts";

const [first = 1, seeds = 8] = process.argv.slice(2).map(Number);
const all = <Found>(trap: (seed: number) => Found): readonly Found[] =>
  Array.from({ length: seeds }, (_, place) => trap(first + place));

const said = (tolds: readonly Told[]): string =>
  `mean error ${meanOf(tolds.map(({ error }) => error)).toFixed(2)}, rms ${rootMeanSquare(tolds.map(({ error }) => error)).toFixed(2)}, stated sd ${rootMeanSquare(tolds.map(({ sd }) => sd)).toFixed(2)}, rms error over sd ${rootMeanSquare(tolds.map(({ error, sd }) => error / sd)).toFixed(1)}`;

function line(name: string, tolds: readonly Told[]): void {
  console.log(`${name.padEnd(64)} ${said(tolds)}`);
}

const knotsFound = all(knotsAndLogarithms);
line(
  "gain, %: scatter in knots",
  knotsFound.map(({ trapped }) => trapped),
);
line(
  "  scatter of ln speed",
  knotsFound.map(({ cured }) => cured),
);
line(
  "  the library",
  knotsFound.map(({ ours }) => ours),
);
line(
  "  the library, derivatives at the rows' own readings",
  knotsFound.map(({ ownReadings }) => ownReadings),
);
const angles = all(constantAngle);
line(
  "upwash, °: constant angle on every row",
  angles.map(({ trapped }) => trapped),
);
line(
  "  the library",
  angles.map(({ cured }) => cured),
);
for (const [name, trap] of [
  ["masthead offset, °: without symmetry", withoutSymmetry],
  ["masthead offset, °: steered by the display, symmetry trusted", blindSymmetry],
  ["compass C, °: about the mean of all legs", farApart],
  ["boat speed gain, %: intercept certain", certainIntercept],
] as const) {
  const found = all(trap);
  line(
    name,
    found.map(({ trapped }) => trapped),
  );
  line(
    "  the library",
    found.map(({ cured }) => cured),
  );
}
const sheared = all(shear);
line(
  "masthead offset, °: one day's shear taken for it",
  sheared.map(({ trapped }) => trapped),
);
line(
  "  the library, one day",
  sheared.map(({ cured }) => cured),
);
line(
  "  the library, three days",
  sheared.map(({ threeDays }) => threeDays),
);
const frozen = await Promise.all(Array.from({ length: 2 }, (_, place) => frozenSensor(first + place)));
const rms = (errors: readonly number[]): string => rootMeanSquare(errors).toFixed(1);
console.log(
  `true wind direction, rms error, °: the wind sensor that came last, and froze ${rms(frozen.map(({ trapped }) => trapped))}; the one chosen ${rms(frozen.map(({ cured }) => cured))}`,
);
console.log(`  chosen ${frozen[0]!.chosen}; the other: ${frozen[0]!.whyNot}`);
