import { METRES_PER_SECOND_IN_A_KNOT, metresPerSecond, radians } from "../units.ts";
import { trueDeviation } from "./faultShapes.ts";
import { type BoatFaults, type CompassFault, noFaults } from "./faults.ts";
import type { RandomNumbers } from "./random.ts";

const LEEWAY_UNIT = METRES_PER_SECOND_IN_A_KNOT ** 2;

/** Deviation beyond its mean goes no further than this upright. */
const MOST_DEVIATION = radians(3);

function deviating(random: RandomNumbers): CompassFault {
  const angle = (most: number): number => radians(random.between(-most, most));
  const drawn = {
    a: angle(3),
    b: angle(2.2),
    c: angle(2.2),
    d: angle(0.9),
    e: angle(0.9),
    third: angle(0.3),
    thirdPhase: radians(random.between(0, 360)),
    heelingError: random.between(-0.08, 0.08),
  };
  const swings = Array.from({ length: 72 }, (_, point) =>
    Math.abs(trueDeviation(radians(5 * point), 0, { ...drawn, a: 0 })),
  );
  const share = Math.min(1, MOST_DEVIATION / Math.max(...swings));
  const { b, c, d, e, third } = drawn;
  return { ...drawn, b: b * share, c: c * share, d: d * share, e: e * share, third: third * share };
}

/**
 * Faults of every kind, drawn at random within what is met on boats that are sailed: offset to 4°, upwash to 7°, speed
 * gain to 8 %, deviations to 3°, and so on.
 *
 * @returns faults in SI units and radians. Never throws.
 * @example
 * Math.abs(drawFaults(randomNumbers(1, 0)).vane.mastheadOffset) <= radians(4) // true
 */
export function drawFaults(random: RandomNumbers): BoatFaults {
  const { between, chance } = random;
  const angle = (least: number, most: number): number => radians(between(least, most));
  const [gain, half] = [between(0.92, 1.08), between(-0.0125, 0.0125)];
  return {
    speed: {
      deficit: metresPerSecond(between(0, 0.5)),
      deficitFalling: between(0, 1),
      gainStarboard: gain * (1 + half),
      gainPort: gain * (1 - half),
    },
    compass: deviating(random),
    heel: { sign: chance(0.7) ? 1 : -1, zero: angle(-2, 2), gain: between(0.98, 1.02) },
    vane: {
      mastheadOffset: angle(-4, 4),
      upwash: angle(0, 7),
      upwashAngle: angle(30, 42),
      upwashNarrowness: between(1.5, 2.5),
      upwashSpeed: between(6, 9),
      upwashWidth: between(1, 1.6),
      trimWander: between(0.03, 0.12),
    },
    anemometer: {
      threshold: chance(0.5) ? 0.5 : between(0, 0.6),
      gain: between(0.92, 1.08),
      speedUp: between(0, 0.08),
    },
    leeway: { coefficient: between(8, 12) * LEEWAY_UNIT, exponent: between(1.7, 2.2) },
  };
}

/**
 * A boat with nothing wrong: faultless sensors, sails that leave the air at the masthead alone, leeway as boats make it.
 *
 * @example
 * faultlessBoat.vane.mastheadOffset // 0
 */
export const faultlessBoat: BoatFaults = {
  ...noFaults,
  leeway: { coefficient: 9.5 * LEEWAY_UNIT, exponent: 2 },
};
