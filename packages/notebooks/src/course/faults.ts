import {
  angleBetween,
  apparentWind,
  boatStateOf,
  degrees,
  knots,
  leewayAngle,
  leewayCoefficient,
  metresPerSecond,
  motionThroughWater,
  noCorrections,
  overWaterWind,
  radians,
  readingsOf,
  type SensorSettings,
  underSail,
  unknownBoatReadings,
  unknownBoatState,
  wrapAngle,
  wrapDirection,
} from "@bothtacks/core";

/** What can be wrong with an invented boat, one number each; 0 is right. */
export interface Faults {
  /** The vane reads too far to starboard, °. */
  readonly mastheadOffset: number;
  /** The sails turn the air so that the vane reads too wide close-hauled, °. */
  readonly upwash: number;
  /** She slides to leeward close-hauled, and the computer leaves it out, °. */
  readonly leeway: number;
  /** The log reads low, %. */
  readonly logLow: number;
  /** The anemometer reads high, %. */
  readonly windHigh: number;
  /** The compass reads high on every heading, °. */
  readonly compassHigh: number;
  /** The compass reads high on east and low on west, °. */
  readonly deviation: number;
  /** No fault: the wind at the masthead comes from further clockwise than that in the sails, °. */
  readonly shear: number;
}

export const NO_FAULTS: Faults = {
  mastheadOffset: 0,
  upwash: 0,
  leeway: 0,
  logLow: 0,
  windHigh: 0,
  compassHigh: 0,
  deviation: 0,
  shear: 0,
};

export type FaultName = keyof Faults;

/** What the wind in the sails is. */
export interface Weather {
  /** Where it comes from, °. */
  readonly direction: number;
  /** kn. */
  readonly speed: number;
}

/** Where the boat sails, and what her instruments make of it. */
export interface ShownWind {
  /** The angle to the wind in the sails, °, port negative. */
  readonly sailed: number;
  /** How far clockwise the direction shown lies from that of the wind in the sails, °. */
  readonly turned: number;
  /** How much more wind is shown than there is, kn. */
  readonly stronger: number;
  /** The wind angle shown, °, port negative. */
  readonly angle: number;
  /** Log and speed over the ground in still water, kn. */
  readonly log: number;
  readonly ground: number;
}

/** Angle to the wind at which `leeway` is what the fault says, °. */
export const CLOSE_HAULED = 42;

/** An invented boat's speed through the water, kn: fastest abeam. No boat's in particular. */
const boatSpeed = (angle: number, wind: number): number =>
  7.5 * (1 - Math.exp(-wind / 7)) * (0.75 + 0.25 * Math.sin(radians(angle)) ** 2);

/** Her heel, °, positive to starboard: away from the wind, less so off it. */
const heelOf = (angle: number, wind: number): number =>
  -Math.sign(angle) * 24 * Math.cos(radians(angle / 2)) ** 2 * (wind / (wind + 6));

/** Her leeway follows heel and speed (M12) and is the fault's number close-hauled. */
function leewayOf(angle: number, wind: number, closeHauled: number): number {
  const [heel, speed] = [radians(heelOf(CLOSE_HAULED, wind)), metresPerSecond(boatSpeed(CLOSE_HAULED, wind))];
  const coefficient = closeHauled === 0 ? 0 : leewayCoefficient(radians(-closeHauled), heel, speed);
  return leewayAngle(radians(heelOf(angle, wind)), metresPerSecond(boatSpeed(angle, wind)), coefficient);
}

const settingsOf = (faults: Faults): SensorSettings => ({
  ...noCorrections,
  vane: {
    ...noCorrections.vane,
    mastheadOffset: radians(faults.mastheadOffset),
    upwash: radians(faults.upwash),
  },
  anemometer: { ...noCorrections.anemometer, gain: 1 / (1 + faults.windHigh / 100) },
  speed: {
    ...noCorrections.speed,
    gainStarboard: 1 / (1 - faults.logLow / 100),
    gainPort: 1 / (1 - faults.logLow / 100),
  },
  compass: {
    ...noCorrections.compass,
    a: radians(-faults.compassHigh),
    b: radians(-faults.deviation),
  },
});

/**
 * What instruments with faults, and a computer that takes them at their word (M10, heel levelled), show of a wind.
 *
 * @param sailed angle to the wind in the sails, °, port negative
 * @returns NaN in a calm. Never throws for winds and faults in a boat's range.
 */
export function shownWind(weather: Weather, sailed: number, faults: Faults): ShownWind {
  const heading = radians(weather.direction - sailed);
  const speedAhead = metresPerSecond(boatSpeed(sailed, weather.speed));
  const leeway = leewayOf(sailed, weather.speed, faults.leeway);
  const motion = motionThroughWater(heading, speedAhead, leeway);
  const aloft = {
    direction: wrapDirection(radians(weather.direction + faults.shear)),
    speed: metresPerSecond(weather.speed),
  };
  const felt = apparentWind(aloft, heading, motion);
  const sensed = {
    heading,
    heel: radians(heelOf(sailed, weather.speed)),
    speedAhead,
    leeway,
    apparentAngle: felt.angle,
    apparentSpeed: felt.speed,
    currentEast: 0,
    currentNorth: 0,
  };
  const readings = readingsOf(sensed, underSail, settingsOf(faults), unknownBoatReadings());
  const state = boatStateOf(readings, underSail, noCorrections, unknownBoatState());
  const shown = overWaterWind(state);
  return {
    sailed,
    turned: degrees(angleBetween(shown.direction, radians(weather.direction))),
    stronger: knots(shown.speed) - weather.speed,
    angle: degrees(wrapAngle(shown.direction - state.heading)),
    log: knots(readings.stw),
    ground: knots(Math.hypot(readings.east, readings.north)),
  };
}

const STEP = 5;
const CLOSEST = 35;

/** Every angle that is sailed, on port tack and on starboard. */
export const SAILED: readonly number[] = Array.from(
  { length: (180 - CLOSEST) / STEP + 1 },
  (_, index) => CLOSEST + STEP * index,
)
  .flatMap((angle) => [-angle, angle])
  .sort((one, other) => one - other);

/** What is shown on every angle that is sailed. Never throws, as `shownWind`. */
export const shownAllRound = (weather: Weather, faults: Faults): readonly ShownWind[] =>
  SAILED.map((angle) => shownWind(weather, angle, faults));
