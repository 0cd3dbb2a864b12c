import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import { settingsOf, vectorOf } from "../../packages/core/src/fit/settingsVector.ts";
import { singleSettings } from "../../packages/core/src/report/settings.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { drawnTruth } from "./legBound.ts";
import { AN_AFTERNOON, AS_SAILED, drawnSail } from "./legDraws.ts";

/** Faultless boats: seeds from here. */
const FAULTLESS = 6_600_000;

/**
 * M176. Settings of a boat with nothing wrong that were learnt, and those that she is told to key in all the same; undefined where the
 * fit was not solved.
 */
export function falseCorrections(number: number) {
  const truth = new Float64Array(drawnTruth(0, () => 0).length);
  truth.set(
    vectorOf({
      ...noCorrections,
      leeway: settingsOf(
        drawnTruth(0, () => 0),
        1,
      ).leeway,
    }),
  );
  const drawing = { tide: true, without: [], seconds: AN_AFTERNOON };
  const { rows } = drawnSail(FAULTLESS + number, number, truth, drawing).sail;
  const fit = fitBoat(rows, AS_SAILED);
  if (fit.status !== "solved") return undefined;
  const settings = singleSettings(fit, "sensors without corrections", noCorrections, UNKNOWN_BOAT, rows);
  return settings.map(({ name, advice, doubts }) => ({
    name,
    learnt: advice === "key in" || advice === "leave alone",
    keyed: advice === "key in" && !doubts.includes("for the others"),
  }));
}
