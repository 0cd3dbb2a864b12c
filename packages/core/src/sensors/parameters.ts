import type { MetresPerSecond, Radians } from "../units.ts";

/**
 * The faults of a boat's sensors, as parameters; `identity` values mean a faultless sensor. The modules beside
 * this one turn a reading into the quantity (`…FromReading`) and back (`…ReadingOf`).
 */

/** M20. true = intercept + gain · reading, the gain being that of the tack sailed; a reading of 0 is "below". */
export interface SpeedSensorParameters {
  readonly intercept: MetresPerSecond;
  /** Factor on starboard tack. */
  readonly gainStarboard: number;
  /** Factor on port tack. */
  readonly gainPort: number;
}

/**
 * M21. heading = compass + a + b sin c + c cos c + d sin 2c + e cos 2c + heelingError · heel · cos c, c the
 * compass heading; heel in rad, so heelingError is rad of deviation per rad of heel on north.
 */
export interface CompassParameters {
  readonly a: Radians;
  readonly b: Radians;
  readonly c: Radians;
  readonly d: Radians;
  readonly e: Radians;
  readonly heelingError: number;
}

/** M22. heel = sign · reading − zero: `zero` is what an upright boat reads (in the sign of the library). */
export interface HeelSensorParameters {
  readonly sign: 1 | -1;
  readonly zero: Radians;
}

/**
 * M25. Where there is no heel sensor, heel is modelled from the indicated wind: heel = −sign(a) · fullHeel · q/(1 + q),
 * q = (speed / 10 m/s)² cos²(a / 2): a boat under sail heels away from the wind, less so off the wind.
 */
export interface HeelModelParameters {
  readonly fullHeel: Radians;
}

/**
 * M23. flow angle in the mast's plane = indicated − mastheadOffset − upwash(indicated − mastheadOffset, speed).
 * upwash(a, v) = (upwash + upwashSlope · x) · g(a) + upwashBroad · sin a, x = 2 (v − v₀)/(v + v₀), v₀ = 7.5 m/s;
 * g(a) = sin a (1 + cos a)³ / its maximum (at 41.4°).
 */
export interface VaneParameters {
  readonly mastheadOffset: Radians;
  readonly upwash: Radians;
  readonly upwashSlope: Radians;
  readonly upwashBroad: Radians;
}

/** M24. speed = (threshold + gain · reading) / (1 + speedUp · sin²(flow angle / 2)); a reading of 0 is "below". */
export interface AnemometerParameters {
  readonly threshold: MetresPerSecond;
  /** Factor. */
  readonly gain: number;
  /** Share by which the air is faster over the sails dead downwind. */
  readonly speedUp: number;
}

/** M12. leeway = coefficient · heel / speed²; m²/s² (rad of leeway per rad of heel times speed squared). */
export interface LeewayParameters {
  readonly coefficient: number;
}

/** The whole boat's corrections as one value. */
export interface SensorSettings {
  readonly speed: SpeedSensorParameters;
  readonly compass: CompassParameters;
  readonly heel: HeelSensorParameters;
  readonly heelModel: HeelModelParameters;
  readonly vane: VaneParameters;
  readonly anemometer: AnemometerParameters;
  readonly leeway: LeewayParameters;
}
