import { METRES_PER_SECOND_IN_A_KNOT } from "../units.ts";

const DEGREE = Math.PI / 180;

/** Units of files and tables, each as so many SI units (rad, m/s, m, s). */
const SI_IN_ONE = {
  deg: DEGREE,
  kn: METRES_PER_SECOND_IN_A_KNOT,
  m: 1,
  s: 1,
  /** A plain factor, or degrees per degree. */
  "1": 1,
  /** The natural logarithm of a factor. */
  ln: 1,
  /** Degrees of leeway per degree of heel, times the square of knots. */
  "deg*kn2/deg": METRES_PER_SECOND_IN_A_KNOT ** 2,
  /** Kelvins or degrees Celsius of a difference of temperatures. */
  "°C": 1,
  "deg/sqrt(s)": DEGREE,
  "1/sqrt(s)": 1,
} as const;

/** A unit that files and tables use. */
export type EdgeUnit = keyof typeof SI_IN_ONE;

/** So many digits survive a conversion there and back, and print 2.5° as 2.5. */
const DIGITS = 15;

/** SI units in one of a product of units, taken first, so that a conversion there and back rounds but twice. */
const siInOne = (units: readonly EdgeUnit[]): number =>
  units.reduce((product, unit) => product * SI_IN_ONE[unit], 1);

/** The SI value of a value in the unit of a file, or in the product of units. Never throws; NaN in, NaN out. */
export const siFromEdge = (value: number, ...units: readonly EdgeUnit[]): number => value * siInOne(units);

/**
 * The value in the unit of a file, to 15 significant digits: what is read from a file and written again is the same
 * to the last digit, and an SI value comes back within 6 parts in 10¹⁵.
 * Never throws; NaN in, NaN out.
 */
export const edgeFromSi = (value: number, ...units: readonly EdgeUnit[]): number =>
  Number((value / siInOne(units)).toPrecision(DIGITS));
