import { radians } from "../units.ts";
import { ZERO_CELSIUS_IN_KELVIN } from "./pgnValues.ts";
import type { QuantityName } from "./readings.ts";

/** One number that a path tells. */
export interface SignalKPart {
  readonly quantity: QuantityName;
  /** The property that holds it, where the value is an object. */
  readonly property?: string;
  /** What tells its source from others of the same quantity and `$source`. */
  readonly suffix?: string;
  /** From the unit of the specification, where that is not ours. */
  readonly toSi?: (value: number) => number;
}

export interface SignalKPath {
  readonly parts: readonly SignalKPart[];
  /** Whether one part says nothing without the others. */
  readonly isWhole?: true;
  /** Whether only the boat herself knows it: what others send by radio never has it. */
  readonly isOwn: boolean;
}

/** A path that only sensors on board tell. */
const own = (quantity: QuantityName, more: Partial<SignalKPart> = {}): SignalKPath => ({
  parts: [{ quantity, ...more }],
  isOwn: true,
});

/** A path that other vessels' radio messages tell too. */
const sent = (quantity: QuantityName): SignalKPath => ({ parts: [{ quantity }], isOwn: false });

const celsius = (kelvin: number): number => kelvin - ZERO_CELSIUS_IN_KELVIN;

/**
 * The paths that are read, with the units of the specification: SI and radians, temperatures in kelvin, positions in degrees.
 *
 * @see Signal K specification 1.8.2, schemas/groups
 */
export const SIGNAL_K_PATHS: ReadonlyMap<string, SignalKPath> = new Map([
  ["environment.wind.angleApparent", own("apparentWindAngle")],
  ["environment.wind.speedApparent", own("apparentWindSpeed")],
  ["environment.wind.angleTrueWater", own("onboardTrueWindAngle", { suffix: "over water" })],
  ["environment.wind.angleTrueGround", own("onboardTrueWindAngle", { suffix: "over ground" })],
  ["environment.wind.directionTrue", own("onboardTrueWindDirection")],
  ["environment.wind.directionMagnetic", own("onboardTrueWindDirectionMagnetic")],
  ["environment.wind.speedTrue", own("onboardTrueWindSpeed", { suffix: "over water" })],
  ["environment.wind.speedOverGround", own("onboardTrueWindSpeed", { suffix: "over ground" })],
  ["navigation.headingMagnetic", own("headingMagnetic")],
  ["navigation.headingCompass", own("headingMagnetic", { suffix: "headingCompass" })],
  ["navigation.headingTrue", sent("headingTrue")],
  ["navigation.magneticVariation", own("variation")],
  ["navigation.speedThroughWater", own("speedThroughWater")],
  ["navigation.speedThroughWaterLongitudinal", own("speedThroughWater", { suffix: "longitudinal" })],
  ["navigation.speedOverGround", sent("speedOverGround")],
  ["navigation.courseOverGroundTrue", sent("courseOverGround")],
  ["navigation.courseOverGroundMagnetic", own("courseOverGroundMagnetic")],
  ["navigation.leewayAngle", own("leeway")],
  ["performance.leeway", own("leeway", { suffix: "performance" })],
  ["navigation.rateOfTurn", sent("rateOfTurn")],
  ["environment.depth.belowTransducer", own("depthBelowTransducer")],
  ["environment.water.temperature", own("waterTemperature", { toSi: celsius })],
  [
    "navigation.attitude",
    {
      parts: [
        { quantity: "heel", property: "roll" },
        { quantity: "pitch", property: "pitch" },
      ],
      isOwn: true,
    },
  ],
  [
    "navigation.position",
    {
      parts: [
        { quantity: "latitude", property: "latitude", toSi: radians },
        { quantity: "longitude", property: "longitude", toSi: radians },
      ],
      isWhole: true,
      isOwn: false,
    },
  ],
]);
