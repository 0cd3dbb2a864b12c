import type { QuantityName } from "../recording/readings.ts";
import { METRES_PER_SECOND_IN_A_KNOT, radians } from "../units.ts";
import { plain, signed } from "./format.ts";

/** How a quantity is shown: as so many SI units in one, with a sign or letters behind it, and letters for names in files. */
interface ShownUnit {
  readonly si: number;
  readonly sign: string;
  readonly letters: string;
  /** Decimals of a sensor's usual reading. */
  readonly decimals: number;
}

const ANGLE: ShownUnit = { si: radians(1), sign: "°", letters: "deg", decimals: 1 };
const SPEED: ShownUnit = { si: METRES_PER_SECOND_IN_A_KNOT, sign: " kn", letters: "kn", decimals: 2 };
const PLACE: ShownUnit = { si: radians(1 / 60), sign: "′", letters: "min", decimals: 4 };
const METRES: ShownUnit = { si: 1, sign: " m", letters: "m", decimals: 1 };

const UNITS: Readonly<Record<QuantityName, ShownUnit>> = {
  apparentWindAngle: ANGLE,
  apparentWindSpeed: SPEED,
  onboardTrueWindAngle: ANGLE,
  onboardTrueWindSpeed: SPEED,
  onboardTrueWindDirection: ANGLE,
  onboardTrueWindDirectionMagnetic: ANGLE,
  speedThroughWater: SPEED,
  headingMagnetic: ANGLE,
  headingTrue: ANGLE,
  variation: ANGLE,
  heel: ANGLE,
  pitch: ANGLE,
  leeway: ANGLE,
  rateOfTurn: { si: radians(1) / 60, sign: "°/min", letters: "deg_per_min", decimals: 1 },
  courseOverGround: ANGLE,
  courseOverGroundMagnetic: ANGLE,
  speedOverGround: SPEED,
  latitude: PLACE,
  longitude: PLACE,
  depthBelowTransducer: METRES,
  transducerOffset: METRES,
  waterTemperature: { si: 1, sign: " °C", letters: "celsius", decimals: 1 },
  distanceThroughWater: { si: 1852, sign: " nmi", letters: "nmi", decimals: 2 },
};

/** Letters for the unit of a quantity in names of files' fields, such as `deg`. Never throws. */
export const unitLetters = (quantity: QuantityName): string => UNITS[quantity].letters;

/** A value in the unit in which its quantity is shown. Never throws; NaN in, NaN out. */
export const inShownUnit = (quantity: QuantityName, value: number): number => value / UNITS[quantity].si;

/** "12.4°", "0.31 kn": a value or a size. Never throws. */
export const amountOf = (
  quantity: QuantityName,
  value: number,
  decimals = UNITS[quantity].decimals,
): string => plain(inShownUnit(quantity, value), decimals) + UNITS[quantity].sign;

/** The same with a plus sign where positive. Never throws. */
export const signedAmountOf = (quantity: QuantityName, value: number): string =>
  signed(inShownUnit(quantity, value), UNITS[quantity].decimals) + UNITS[quantity].sign;

/** "0.1°", "1°": the step of a sensor's readings, in the digits that it needs; "unknown" where none could be told. Never throws. */
export function stepOf(quantity: QuantityName, step: number): string {
  const shown = inShownUnit(quantity, step);
  return Number.isNaN(shown) ? "unknown" : `${Number(shown.toPrecision(2))}${UNITS[quantity].sign}`;
}
