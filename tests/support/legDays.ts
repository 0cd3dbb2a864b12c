import { mean, sampleStandardDeviation } from "simple-statistics";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { drawnTruth } from "./legBound.ts";
import { AS_SAILED, DRAWN_WIDTH, drawnSail, FAULTS_STREAM } from "./legDraws.ts";
import { rowsOfDays } from "./scoredSails.ts";

/** Boats of many legs: seeds from here, days of so many rows or so. */
const LONG = 6_700_000;
const THREE_HOURS = 11_500;
const A_DAY = 86_400;

/** Share from which a parameter is called informed. */
const INFORMED = 0.5;

/** Errors over the fit's standard deviation, NaN where the parameter was not informed; undefined where the fit was not solved. */
function standingErrors(boat: number, days: number, sign: 1 | -1): readonly number[] | undefined {
  const { normal } = randomNumbers(LONG + boat, FAULTS_STREAM);
  const truth = drawnTruth(DRAWN_WIDTH, () => sign * normal());
  const sailed = Array.from({ length: days }, (_, day) => {
    const drawing = { tide: true, without: [], seconds: THREE_HOURS, start: A_DAY * (20_000 + day), sign };
    return drawnSail(LONG + 1000 * boat + day, boat + 4 * day, truth, drawing).sail.rows;
  });
  const fit = fitBoat(rowsOfDays(sailed), AS_SAILED);
  if (fit.status !== "solved") return undefined;
  return fit.parameters.map(({ value, sd, informed }, index) =>
    informed < INFORMED ? Number.NaN : (value - truth[index]!) / sd,
  );
}

/**
 * M176. Bias of each parameter on so many days, in standard deviations: half the sum of the errors of a boat and of her opposite, whose faults and
 * chances lie on the other side of what is expected, so that what is odd in them cancels. NaN where one of them was not told; undefined where a
 * fit was not solved.
 */
export const pairedBias = (boat: number, days: number): readonly number[] | undefined => {
  const [one, other] = [standingErrors(boat, days, 1), standingErrors(boat, days, -1)];
  return other && one?.map((error, index) => (error + other[index]!) / 2);
};

/** A mean over pairs of boats, and its standard error. */
export interface MeanBias {
  readonly mean: number;
  readonly error: number;
}

/** Of one parameter over the pairs of which it was told; NaN for fewer than two. */
export function meanBias(pairs: readonly (readonly number[])[], parameter: number): MeanBias {
  const told = pairs.map((pair) => pair[parameter]!).filter((value) => !Number.isNaN(value));
  if (told.length < 2) return { mean: Number.NaN, error: Number.NaN };
  return { mean: mean(told), error: sampleStandardDeviation(told) / Math.sqrt(told.length) };
}
