import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { Agreements, Calibration } from "../../packages/core/src/calibration/calibration.ts";
import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";

const DAY = 86_400;
const FIRST_DAY = Date.UTC(2031, 5, 14, 11) / 1000;

const agreements: Agreements = [
  { kind: "direction between tacks", value: 0.01, sd: 0.02, contrasts: 20 },
  { kind: "direction upwind against downwind", value: 0.01, sd: 0.02, contrasts: 8 },
  { kind: "speed between tacks", value: 0.01, sd: 0.02, contrasts: 20 },
];

/** A calibration of an invented boat, for files and words: a fit, made from an afternoon some days after the first. */
export function calibrationFixture(fit: SolvedBoatFit, day: number): Calibration {
  const settings = { base: "sensors without corrections", active: noCorrections } as const;
  const start = FIRST_DAY + day * DAY;
  return {
    made: start + DAY,
    boat: { ...UNKNOWN_BOAT, name: "Quince", settings },
    recording: {
      files: [`day${day}.nmea`],
      start,
      end: start + 9000,
      lines: { lines: 60_000, used: 59_000, ignored: 990, problems: 10 },
      chosen: [
        { source: { quantity: "apparentWindAngle", name: "WI MWV" }, why: "the only one", rate: 1 },
        { source: { quantity: "headingMagnetic", name: "HC HDG" }, why: "the only one", rate: 1 },
      ],
      directionsAre: "true",
    },
    settings,
    fit,
    before: agreements,
    after: agreements,
    notes: [],
  };
}
