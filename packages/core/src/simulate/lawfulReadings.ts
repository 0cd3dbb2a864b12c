import { leewayAngle } from "../physics/leeway.ts";
import { readingsOf } from "../sensors/boatReadings.ts";
import type { BoatReadings, Circumstances } from "../sensors/boatState.ts";
import { headingReadingOf } from "../sensors/compass.ts";
import { modelledHeel } from "../sensors/heelModel.ts";
import {
  gainsTogether,
  type LawErrors,
  leewayFactor,
  skewFactor,
  speedWithDeficit,
  thirdHarmonic,
  windageLeeway,
} from "../sensors/lawErrors.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { speedReadingOf, UPRIGHT } from "../sensors/speedSensor.ts";
import type { MetresPerSecond, Radians } from "../units.ts";

/** What a boat does in a wind: all that readings follow from, besides the sensors. */
export interface Way {
  heading: Radians;
  /** Through the water, along the boat. */
  speedAhead: MetresPerSecond;
  /** Positive to starboard; not looked at where heel follows from the indicated wind. */
  heel: Radians;
  /** Wind over the water, the vector that points to where it comes from. */
  windEast: MetresPerSecond;
  windNorth: MetresPerSecond;
  currentEast: MetresPerSecond;
  currentNorth: MetresPerSecond;
}

/** What hangs on the indicated wind, which hangs on it in turn, is found by substitution; it settles within ten or so. */
const MOST_ROUNDS = 60;
/** rad and m/s: far below what doubles keep of the readings. */
const SETTLED = 1e-13;

/** The speed that the bend of the wheel's deficit (M29) makes another of, by substitution. */
function speedBeforeBend(speed: MetresPerSecond, laws: LawErrors): MetresPerSecond {
  let before = speed;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = before + speed - speedWithDeficit(before, laws);
    const moved = Math.abs(next - before);
    before = next;
    if (!(moved > SETTLED)) break;
  }
  return before;
}

/** The compass heading from which M21 and the third harmonic (M29) make a heading, by substitution. */
function compassHeading(heading: Radians, heel: Radians, settings: SensorSettings, laws: LawErrors): Radians {
  let reading = headingReadingOf(heading, heel, settings.compass);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = headingReadingOf(heading - thirdHarmonic(reading, laws), heel, settings.compass);
    const moved = Math.abs(next - reading);
    reading = next;
    if (!(moved > SETTLED)) break;
  }
  return reading;
}

function heelOf(
  way: Way,
  circumstances: Circumstances,
  settings: SensorSettings,
  out: BoatReadings,
): Radians {
  if (circumstances.heelIs !== "modelled") return way.heel;
  return circumstances.sailsUp ? modelledHeel(out.awa, out.aws, settings.heelModel) : 0;
}

/**
 * M172. What instruments show whose faults are those that the fit undoes (M27), with what the laws leave out (M29): the inverse of
 * `boatStateOf` with law errors. Leeway and heel follow from the state, and where they hang on the indicated wind, by substitution.
 *
 * @param out filled and returned; heel NaN where no sensor shows it
 * @returns `out`. Never throws; NaN where a law has no inverse.
 */
export function lawfulReadings(
  way: Readonly<Way>,
  circumstances: Circumstances,
  settings: SensorSettings,
  laws: LawErrors,
  out: BoatReadings,
): BoatReadings {
  const { heading, speedAhead, windEast, windNorth, currentEast, currentNorth } = way;
  const { sailsUp } = circumstances;
  const [sine, cosine] = [Math.sin(heading), Math.cos(heading)];
  const ahead = windEast * sine + windNorth * cosine + speedAhead;
  const abeam = windEast * cosine - windNorth * sine;
  out.awa = Math.atan2(abeam, ahead);
  out.aws = Math.hypot(ahead, abeam);
  let heel = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const { awa, aws } = out;
    heel = heelOf(way, circumstances, settings, out);
    const leeway = sailsUp
      ? leewayAngle(heel, speedAhead, settings.leeway.coefficient) *
        leewayFactor(speedAhead, laws) *
        skewFactor(awa, laws)
      : windageLeeway(awa, aws, speedAhead, laws);
    const athwart = abeam + speedAhead * Math.tan(leeway);
    const apparentAngle = Math.atan2(athwart, ahead);
    const apparentSpeed = Math.hypot(ahead, athwart);
    const state = {
      heading,
      heel,
      speedAhead,
      leeway,
      apparentAngle,
      apparentSpeed,
      currentEast,
      currentNorth,
    };
    readingsOf(state, circumstances, settings, out);
    if (!(Math.abs(out.awa - awa) + Math.abs(out.aws - aws) > SETTLED)) break;
  }
  if (circumstances.stwIs === "reading")
    out.stw = speedReadingOf(
      speedBeforeBend(speedAhead, laws),
      out.awa,
      settings.speed,
      sailsUp ? gainsTogether(out.awa, laws) : UPRIGHT,
    );
  if (circumstances.headingIs === "reading") {
    const { variation, sinceMiddle } = circumstances;
    const drifted = heading - variation - laws.compassDrift * sinceMiddle;
    out.heading = compassHeading(drifted, heel, settings, laws);
  }
  return out;
}
