import { wrapAngle, wrapDirection } from "../angles.ts";
import { type MetresPerSecond, radians } from "../units.ts";
import type { QuantityName } from "./readings.ts";

/** What a reading of a quantity can be, in SI units and radians. */
export interface QuantityBounds {
  readonly least: number;
  readonly greatest: number;
  /** The same in words that follow "a number of". */
  readonly words: string;
  /** Brings an angle to its interval. */
  readonly wrap?: (value: number) => number;
}

/** Angles may be rounded up; more than a turn is told in degrees by mistake, or is none. */
const TURN = 2 * Math.PI + 1e-3;

/** The most that a field for a speed holds on NMEA 2000: faster than sound, so that nothing real is lost. */
const FASTEST: MetresPerSecond = 655.32;

/** The deepest water on Earth is 10,935 m (Challenger Deep, General Bathymetric Chart of the Oceans), and no log is as long as this. */
const DEEPEST = 11_000;
const LONGEST = 2 ** 32;

const turn = (wrap: (value: number) => number): QuantityBounds => ({
  least: -TURN,
  greatest: TURN,
  words: "radians, a turn at most",
  wrap,
});

const speed = (least: MetresPerSecond): QuantityBounds => ({
  least,
  greatest: FASTEST,
  words: `m/s from ${least} to ${FASTEST}`,
});

const between = (least: number, greatest: number, unit: string): QuantityBounds => ({
  least,
  greatest,
  words: `${unit} from ${least} to ${greatest}`,
});

const HALF_TURN: QuantityBounds = {
  least: -Math.PI,
  greatest: Math.PI,
  words: "radians, half a turn at most",
};

/** M100. What readings can be; anything beyond is no reading, whoever tells it. */
export const QUANTITY_BOUNDS: Readonly<Record<QuantityName, QuantityBounds>> = {
  apparentWindAngle: turn(wrapAngle),
  apparentWindSpeed: speed(0),
  onboardTrueWindAngle: turn(wrapAngle),
  onboardTrueWindSpeed: speed(0),
  onboardTrueWindDirection: turn(wrapDirection),
  onboardTrueWindDirectionMagnetic: turn(wrapDirection),
  speedThroughWater: speed(-FASTEST),
  headingMagnetic: turn(wrapDirection),
  headingTrue: turn(wrapDirection),
  variation: HALF_TURN,
  heel: HALF_TURN,
  pitch: HALF_TURN,
  leeway: HALF_TURN,
  rateOfTurn: { least: -TURN, greatest: TURN, words: "rad/s, a turn a second at most" },
  courseOverGround: turn(wrapDirection),
  courseOverGroundMagnetic: turn(wrapDirection),
  speedOverGround: speed(0),
  latitude: { least: radians(-90), greatest: radians(90), words: "degrees of latitude" },
  longitude: { least: radians(-180), greatest: radians(180), words: "degrees of longitude" },
  depthBelowTransducer: between(0, DEEPEST, "m"),
  transducerOffset: between(-100, 100, "m"),
  waterTemperature: between(-100, 100, "°C"),
  distanceThroughWater: between(0, LONGEST, "m"),
};

/** The value of a quantity within its interval; NaN where it can be none. Never throws. */
export function possibleValue(quantity: QuantityName, value: number): number {
  const { least, greatest, wrap } = QUANTITY_BOUNDS[quantity];
  if (!(value >= least && value <= greatest)) return Number.NaN;
  return wrap ? wrap(value) : value;
}

/** What some readings, told together, can be (M100). */
export class ReadingBounds {
  readonly #quantities: readonly QuantityName[];
  readonly least: Float64Array;
  readonly greatest: Float64Array;

  /** @param quantities in the order of the readings */
  constructor(quantities: readonly QuantityName[]) {
    this.#quantities = quantities;
    this.least = Float64Array.from(quantities, (quantity) => QUANTITY_BOUNDS[quantity].least);
    this.greatest = Float64Array.from(quantities, (quantity) => QUANTITY_BOUNDS[quantity].greatest);
  }

  /** Whether the reading at a place, a number, is one that its quantity can have. Never throws. */
  hold(place: number, reading: number): boolean {
    return reading >= this.least[place]! && reading <= this.greatest[place]!;
  }

  /** What the reading at a place should be. */
  expected(place: number): string {
    return `a number of ${QUANTITY_BOUNDS[this.#quantities[place]!].words}`;
  }

  /** What the first reading that its quantity cannot have should be; "" where all can, or are NaN. Never throws. */
  fault(readings: Float64Array): string {
    for (let place = 0; place < this.least.length; place++)
      if (readings[place]! < this.least[place]! || readings[place]! > this.greatest[place]!)
        return this.expected(place);
    return "";
  }
}
