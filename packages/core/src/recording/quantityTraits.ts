import { METRES_PER_SECOND_IN_A_KNOT, radians } from "../units.ts";
import type { QuantityName } from "./readings.ts";

/** What can be said of a quantity before any reading of it. */
export interface QuantityTraits {
  /** Whether differences go the short way round. */
  readonly isAngle: boolean;
  /** By how much a lone reading must stand off from both neighbours to be a spike; judgement, generous. */
  readonly spike: number;
  /** Rate of change, a second, that no boat reaches; absent where there is none. */
  readonly fastest?: number;
  /** Whether it never keeps one value for long aboard a boat under way. */
  readonly isRestless: boolean;
  /** How near two readings must be to be copies of each other: half of the usual last digit. */
  readonly same: number;
  /** Units that its readings may be written in; their decimal steps are tried as resolution. */
  readonly units: readonly number[];
}

const DEGREE = radians(1);
const KNOT = METRES_PER_SECOND_IN_A_KNOT;

/** M160. A dinghy thrown round in a gybe stays below this, a keelboat far below. Judgement. */
const FASTEST_TURN = 60 * DEGREE;

const angle = (spike: number, isRestless = true): QuantityTraits => ({
  isAngle: true,
  spike,
  isRestless,
  same: DEGREE * 0.051,
  units: [DEGREE],
});

const speed = (spike: number): QuantityTraits => ({
  isAngle: false,
  spike,
  isRestless: true,
  same: KNOT * 0.051,
  units: [KNOT, 1, 1 / 3.6],
});

const plain = (spike: number, unit: number): QuantityTraits => ({
  isAngle: false,
  spike,
  isRestless: false,
  same: unit * 0.051,
  units: [unit],
});

/** Latitude and longitude come in ten-thousandths of a minute or finer; they are no angles to compare by degrees. */
const place: QuantityTraits = {
  isAngle: true,
  spike: DEGREE / 20,
  isRestless: true,
  same: DEGREE / 60 / 1000,
  units: [DEGREE / 60],
};

export const QUANTITY_TRAITS: Readonly<Record<QuantityName, QuantityTraits>> = {
  apparentWindAngle: angle(40 * DEGREE),
  apparentWindSpeed: speed(5),
  onboardTrueWindAngle: angle(40 * DEGREE),
  onboardTrueWindSpeed: speed(5),
  onboardTrueWindDirection: angle(40 * DEGREE),
  onboardTrueWindDirectionMagnetic: angle(40 * DEGREE),
  speedThroughWater: speed(2),
  headingMagnetic: { ...angle(30 * DEGREE), fastest: FASTEST_TURN },
  headingTrue: { ...angle(30 * DEGREE), fastest: FASTEST_TURN },
  variation: angle(5 * DEGREE, false),
  heel: angle(20 * DEGREE),
  pitch: angle(15 * DEGREE),
  leeway: angle(10 * DEGREE, false),
  rateOfTurn: { ...plain(30 * DEGREE, DEGREE / 60), isRestless: true },
  courseOverGround: angle(60 * DEGREE),
  courseOverGroundMagnetic: angle(60 * DEGREE),
  speedOverGround: speed(3),
  latitude: place,
  longitude: place,
  depthBelowTransducer: plain(10, 1),
  transducerOffset: plain(1, 1),
  waterTemperature: plain(5, 1),
  distanceThroughWater: plain(1000, 1852),
};
