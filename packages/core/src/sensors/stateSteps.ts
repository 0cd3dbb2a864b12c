import { wrapAngle, wrapDirection } from "../angles.ts";
import { levelAthwart } from "../physics/attitude.ts";
import { leewayAngle } from "../physics/leeway.ts";
import { speedOf } from "../physics/vectors.ts";
import { cupSpeedFromReading, flowSpeed } from "./anemometer.ts";
import type { BoatReadings, BoatState, Circumstances } from "./boatState.ts";
import { headingFromReading } from "./compass.ts";
import { modelledHeel } from "./heelModel.ts";
import { heelFromReading } from "./heelSensor.ts";
import {
  gainsTogether,
  type LawErrors,
  leewayFactor,
  skewFactor,
  speedWithDeficit,
  thirdHarmonic,
  windageLeeway,
} from "./lawErrors.ts";
import type { SensorSettings } from "./parameters.ts";
import { speedFromReading, UPRIGHT } from "./speedSensor.ts";
import { flowAngleFromReading } from "./vane.ts";

/** One of the steps of M27: fills what it is about from the readings and from what the steps before it filled. Never throws. */
export type StateStep = (
  readings: Readonly<BoatReadings>,
  circumstances: Circumstances,
  settings: SensorSettings,
  laws: LawErrors,
  out: BoatState,
) => void;

/** M20: speed along the boat. */
export const speedAheadOf: StateStep = (readings, circumstances, settings, laws, out) => {
  const { awa, stw } = readings;
  const { sailsUp, stwIs } = circumstances;
  const together = sailsUp ? gainsTogether(awa, laws) : UPRIGHT;
  out.speedAhead =
    stwIs === "true" ? stw : speedWithDeficit(speedFromReading(stw, awa, settings.speed, together), laws);
};

/** M22, M25, M12: heel and leeway. */
export const heelAndLeewayOf: StateStep = (readings, circumstances, settings, laws, out) => {
  const { awa, aws, heel } = readings;
  const { sailsUp, heelIs } = circumstances;
  if (heelIs === "reading") out.heel = heelFromReading(heel, settings.heel);
  else if (heelIs === "true") out.heel = heel;
  else out.heel = sailsUp ? modelledHeel(awa, aws, settings.heelModel) : 0;
  out.leeway = sailsUp
    ? leewayAngle(out.heel, out.speedAhead, settings.leeway.coefficient) *
      leewayFactor(out.speedAhead, laws) *
      skewFactor(awa, laws)
    : windageLeeway(awa, aws, out.speedAhead, laws);
};

/** M21: heading, from the north that the circumstances allow. */
export const headingOf: StateStep = (readings, circumstances, settings, laws, out) => {
  const { headingIs, variation } = circumstances;
  if (headingIs === "true") out.heading = wrapDirection(readings.heading);
  else if (headingIs === "course") out.heading = wrapDirection(readings.heading - out.leeway);
  else {
    const heading = wrapDirection(
      headingFromReading(readings.heading, out.heel, settings.compass) +
        thirdHarmonic(readings.heading, laws) +
        laws.compassDrift * circumstances.sinceMiddle,
    );
    out.heading = Number.isNaN(variation) ? heading : wrapDirection(heading + variation);
  }
};

/** M23, M24, M13: the wind in the mast's own plane. */
export const flowOf: StateStep = (readings, circumstances, settings, _laws, out) => {
  const { sailsUp, mastheadAhead, mastheadAthwart } = circumstances;
  const { vane, anemometer } = settings;
  const cups = cupSpeedFromReading(readings.aws, anemometer);
  const angle = sailsUp
    ? flowAngleFromReading(readings.awa, cups, vane)
    : wrapAngle(readings.awa - vane.mastheadOffset);
  const speed = sailsUp ? flowSpeed(cups, angle, anemometer) : cups;
  if (mastheadAhead === 0 && mastheadAthwart === 0) {
    out.flowAngle = angle;
    out.flowSpeed = speed;
  } else {
    const ahead = speed * Math.cos(angle) - mastheadAhead;
    const athwart = speed * Math.sin(angle) - mastheadAthwart;
    out.flowAngle = Math.atan2(athwart, ahead);
    out.flowSpeed = speedOf(ahead, athwart);
  }
};

/** M11, M10, M14: level, then the wind over the water and over the ground, and the current. */
export const windsOf: StateStep = (readings, circumstances, _settings, _laws, out) => {
  const magnetic = circumstances.headingIs === "reading" && Number.isNaN(circumstances.variation);
  const east = magnetic ? Number.NaN : readings.east;
  const north = magnetic ? Number.NaN : readings.north;
  const { heading, speedAhead } = out;
  const sine = Math.sin(heading);
  const cosine = Math.cos(heading);
  const ahead = out.flowSpeed * Math.cos(out.flowAngle);
  const athwart = levelAthwart(ahead, out.flowSpeed * Math.sin(out.flowAngle), out.heel, 0);
  const adrift = speedAhead * Math.tan(out.leeway);
  const waterEast = speedAhead * sine + adrift * cosine;
  const waterNorth = speedAhead * cosine - adrift * sine;
  const apparentEast = ahead * sine + athwart * cosine;
  const apparentNorth = ahead * cosine - athwart * sine;
  out.apparentAngle = Math.atan2(athwart, ahead);
  out.apparentSpeed = speedOf(ahead, athwart);
  out.throughWaterEast = waterEast;
  out.throughWaterNorth = waterNorth;
  out.overWaterEast = apparentEast - waterEast;
  out.overWaterNorth = apparentNorth - waterNorth;
  out.overGroundEast = apparentEast - east;
  out.overGroundNorth = apparentNorth - north;
  out.currentEast = east - waterEast;
  out.currentNorth = north - waterNorth;
};
