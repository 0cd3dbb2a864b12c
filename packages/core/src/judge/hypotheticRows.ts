import type { RecordingChannels } from "../fit/fitContext.ts";
import { leewayAngle } from "../physics/leeway.ts";
import { type LegRow, MOMENT_CHANNELS } from "../sailing/legRow.ts";
import { readingsOf, unknownBoatReadings } from "../sensors/boatReadings.ts";
import type { Circumstances } from "../sensors/boatState.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { beatAngle, polarSpeed, runAngle, steadyHeel } from "../simulate/polar.ts";
import type { MetresPerSecond, Radians, Seconds } from "../units.ts";
import { type PlannedLeg, secondsOfLeg } from "./plannedLeg.ts";

/** The wind that a plan reckons with. */
export interface PlannedWind {
  /** Where it comes from. */
  readonly direction: Radians;
  readonly speed: MetresPerSecond;
}

/** After a turn she gathers way before rows begin; rows are as long as those of a recording (M39). */
const SETTLING: Seconds = 30;
const ROW: Seconds = 30;
const CIRCLING_ROW: Seconds = 12;

/** How she goes at one moment. */
interface Going {
  readonly heading: Radians;
  readonly speed: MetresPerSecond;
  readonly underSail: boolean;
  readonly starboard: boolean;
}

function angleOf(leg: Extract<PlannedLeg, { kind: "sail" }>, { speed }: PlannedWind): Radians {
  if (leg.angle === "upwind") return beatAngle(speed);
  return leg.angle === "downwind" ? runAngle(speed) : leg.angle;
}

function goingOn(leg: PlannedLeg, wind: PlannedWind, seconds: Seconds): Going {
  switch (leg.kind) {
    case "sail": {
      const angle = angleOf(leg, wind);
      const starboard = leg.tack === "starboard";
      const heading = wind.direction - (starboard ? angle : -angle);
      return { heading, speed: polarSpeed(wind.speed, angle), underSail: true, starboard };
    }
    case "motor":
      return {
        heading: wind.direction + leg.off,
        speed: leg.speed,
        underSail: false,
        starboard: Math.sin(leg.off) <= 0,
      };
    case "circle": {
      const turned = Math.sign(leg.turns) * leg.rate * seconds;
      return {
        heading: wind.direction + turned,
        speed: leg.speed,
        underSail: false,
        starboard: Math.sin(turned) <= 0,
      };
    }
  }
}

/** What the instruments would show, in the order of MOMENT_CHANNELS. */
function readingsGoing(
  { heading, speed, underSail }: Going,
  wind: PlannedWind,
  settings: SensorSettings,
  channels: RecordingChannels,
) {
  const ahead = wind.speed * Math.cos(wind.direction - heading) + speed;
  const athwart = wind.speed * Math.sin(wind.direction - heading);
  const heel = underSail ? steadyHeel(Math.atan2(athwart, ahead), Math.hypot(ahead, athwart)) : 0;
  const leeway = underSail ? leewayAngle(heel, speed, settings.leeway.coefficient) : 0;
  const abeam = athwart + speed * Math.tan(leeway);
  const circumstances: Circumstances = {
    sailsUp: underSail,
    stwIs: channels.paddle ? "reading" : "true",
    headingIs: channels.compass ? "reading" : "course",
    heelIs: channels.heel ? "reading" : "modelled",
    variation: 0,
    mastheadAhead: 0,
    mastheadAthwart: 0,
    sinceMiddle: 0,
  };
  const state = {
    heading,
    heel,
    speedAhead: speed,
    leeway,
    apparentAngle: Math.atan2(abeam, ahead),
    apparentSpeed: Math.hypot(ahead, abeam),
    currentEast: 0,
    currentNorth: 0,
  };
  const readings = readingsOf(state, circumstances, settings, unknownBoatReadings());
  const there = (is: boolean, value: number): number => (is ? value : Number.NaN);
  return {
    ...readings,
    stw: there(channels.paddle, readings.stw),
    heading: there(channels.compass, readings.heading),
    heel: there(channels.heel, readings.heel),
    east: there(channels.gps, readings.east),
    north: there(channels.gps, readings.north),
  };
}

function rowOf(leg: PlannedLeg, number: number, at: Seconds, start: Seconds, duration: Seconds) {
  return (wind: PlannedWind, settings: SensorSettings, channels: RecordingChannels): LegRow => {
    const going = goingOn(leg, wind, at + duration / 2);
    return {
      leg: number,
      kind: going.underSail ? "sailing" : "motoring",
      tack: going.starboard ? "starboard" : "port",
      start: start + at,
      duration,
      count: duration,
      mean: readingsGoing(going, wind, settings, channels),
      covariance: new Float64Array(MOMENT_CHANNELS.length ** 2),
      autocovariance: new Float64Array(9),
      headingIsTrue: true,
      variation: 0,
      latitude: Number.NaN,
      longitude: Number.NaN,
    };
  };
}

/**
 * M83. The rows that legs would make, free of noise: an invented boat's speed, angles and heel (M74), the wind steady, what the
 * sensors' settings make of it as readings (M27 backwards).
 *
 * @param wind that she would meet
 * @param settings of the sensors, as a fit found them
 * @returns rows in time order, from 0 s on. Never throws.
 */
export function hypotheticRows(
  legs: readonly PlannedLeg[],
  wind: PlannedWind,
  settings: SensorSettings,
  channels: RecordingChannels,
): readonly LegRow[] {
  let start = 0;
  return legs.flatMap((leg, number) => {
    const [row, settling] = leg.kind === "circle" ? [CIRCLING_ROW, 0] : [ROW, SETTLING];
    const count = Math.floor((secondsOfLeg(leg) - settling) / row);
    const rows = Array.from({ length: count }, (_, index) =>
      rowOf(leg, number, settling + index * row, start, row)(wind, settings, channels),
    );
    start += secondsOfLeg(leg);
    return rows;
  });
}
