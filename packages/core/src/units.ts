/**
 * Units. Inside the library everything is SI and radians; degrees and knots exist at the edges only.
 *
 * A unit is a weak brand: a plain number fits anywhere, arithmetic needs no cast, nothing exists at run
 * time, but a `Degrees` handed to a `Radians` place does not compile.
 */
declare const unit: unique symbol;

type Quantity<Name extends string> = number & { readonly [unit]?: Name };

/** An angle in radians. */
export type Radians = Quantity<"rad">;
/** An angle in degrees: at the edges only. */
export type Degrees = Quantity<"deg">;
/** A rate of turn, heel or pitch in radians per second. */
export type RadiansPerSecond = Quantity<"rad/s">;
/** A speed in metres per second. */
export type MetresPerSecond = Quantity<"m/s">;
/** A speed in knots: at the edges only. */
export type Knots = Quantity<"kn">;
/** A length in metres. */
export type Metres = Quantity<"m">;
/** A time in seconds since 1970-01-01T00:00:00Z, or a duration in seconds. */
export type Seconds = Quantity<"s">;
/**
 * A temperature in degrees Celsius.
 *
 * @example
 * const water = 18; // a plain number fits wherever a unit is wanted
 */
export type Celsius = Quantity<"°C">;

/** A column of one quantity: a Float64Array that remembers its unit for the compiler. Missing is NaN. */
export type Column<Unit extends number> = Float64Array & { readonly [unit]?: Unit };

/**
 * M1. The international nautical mile of 1852 m (Monaco 1929), an hour long: 1 kn = 1852/3600 m/s.
 *
 * @example
 * (36 * METRES_PER_SECOND_IN_A_KNOT).toFixed(6) // "18.520000"
 */
export const METRES_PER_SECOND_IN_A_KNOT = 1852 / 3600;

const RADIANS_IN_A_DEGREE = Math.PI / 180;

/**
 * Radians in so many degrees. Never throws; NaN in, NaN out.
 *
 * @example
 * radians(180) // Math.PI
 */
export const radians = (angle: Degrees): Radians => angle * RADIANS_IN_A_DEGREE;

/**
 * Degrees in so many radians. Never throws; NaN in, NaN out.
 *
 * @example
 * degrees(Math.PI / 2) // 90
 */
export const degrees = (angle: Radians): Degrees => angle / RADIANS_IN_A_DEGREE;

/**
 * Metres per second in so many knots (M1). Never throws; NaN in, NaN out.
 *
 * @example
 * metresPerSecond(36).toFixed(6) // "18.520000"
 */
export const metresPerSecond = (speed: Knots): MetresPerSecond => speed * METRES_PER_SECOND_IN_A_KNOT;

/**
 * Knots in so many metres per second (M1). Never throws; NaN in, NaN out.
 *
 * @example
 * knots(0.5 * 1852 / 3600).toFixed(6) // "0.500000"
 */
export const knots = (speed: MetresPerSecond): Knots => speed / METRES_PER_SECOND_IN_A_KNOT;
