import { siFromEdge } from "../calibration/edgeUnits.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { metresPerSecond, radians } from "../units.ts";
import type { Random } from "./random.ts";
import type { ScenarioFaults } from "./scenario.ts";

/** Whole deviation that a swung compass keeps at most, degrees. */
const MOST_DEVIATION = 3;

function drawCompass(random: Random): ScenarioFaults["compass"] {
  const [a, b, c] = [random.between(-2, 2), random.between(-1.5, 1.5), random.between(-1.5, 1.5)];
  const [d, e] = [random.between(-0.6, 0.6), random.between(-0.6, 0.6)];
  const whole = Math.abs(a) + Math.hypot(b, c) + Math.hypot(d, e);
  const less = Math.min(1, MOST_DEVIATION / whole);
  return {
    a_deg: a * less,
    b_deg: b * less,
    c_deg: c * less,
    d_deg: d * less,
    e_deg: e * less,
    heeling_error_deg_per_deg: random.between(-0.06, 0.06),
    third_deg: random.between(0, 0.25),
    third_phase_deg: random.between(0, 360),
  };
}

function drawSpeed(random: Random): ScenarioFaults["speed"] {
  const mean = 1 + random.between(-0.08, 0.08);
  const half = random.between(-0.01, 0.01);
  return {
    intercept_kn: random.between(0, 0.5),
    friction_share: random.uniform(),
    gain_starboard: mean * (1 + half),
    gain_port: mean * (1 - half),
  };
}

/** M74. Faults of every kind, as large as boats are sailed with. */
export function drawFaults(random: Random): ScenarioFaults {
  return {
    speed: drawSpeed(random),
    compass: drawCompass(random),
    heel: { sign: random.oneOf([1, -1]), zero_deg: random.between(-2, 2) },
    vane: {
      masthead_offset_deg: random.between(-4, 4),
      upwash_deg: random.between(0, 7),
      upwash_angle_deg: random.between(28, 42),
      upwash_width: random.between(1.2, 3),
    },
    anemometer: {
      threshold_kn: random.between(0, 1.2),
      gain: 1 + random.between(-0.08, 0.08),
      speed_up: random.between(0, 0.08),
      speed_up_exponent: random.between(1, 2),
    },
    leeway: {
      coefficient_deg_kn2_per_deg: random.between(8, 12),
      speed_exponent: random.between(1.7, 2.2),
    },
  };
}

/** The faults of a boat with nothing wrong: her leeway only, by the very law of M12. */
export const NO_FAULTS: ScenarioFaults = {
  speed: { intercept_kn: 0, friction_share: 0, gain_starboard: 1, gain_port: 1 },
  compass: {
    a_deg: 0,
    b_deg: 0,
    c_deg: 0,
    d_deg: 0,
    e_deg: 0,
    heeling_error_deg_per_deg: 0,
    third_deg: 0,
    third_phase_deg: 0,
  },
  heel: { sign: 1, zero_deg: 0 },
  vane: { masthead_offset_deg: 0, upwash_deg: 0, upwash_angle_deg: 35, upwash_width: 2 },
  anemometer: { threshold_kn: 0, gain: 1, speed_up: 0, speed_up_exponent: 1 },
  leeway: { coefficient_deg_kn2_per_deg: 10, speed_exponent: 2 },
};

/**
 * The settings that come nearest to undoing faults: those that share their names. Where shapes differ (upwash, speed-up, friction,
 * leeway's exponent, the third harmonic) they are near, not right; heel without a sensor has none (0).
 * Never throws.
 */
export function settingsNearFaults(faults: ScenarioFaults): SensorSettings {
  const { speed, compass, heel, vane, anemometer, leeway } = faults;
  return {
    speed: {
      intercept: metresPerSecond(speed.intercept_kn),
      gainStarboard: speed.gain_starboard,
      gainPort: speed.gain_port,
    },
    compass: {
      a: radians(compass.a_deg),
      b: radians(compass.b_deg),
      c: radians(compass.c_deg),
      d: radians(compass.d_deg),
      e: radians(compass.e_deg),
      heelingError: compass.heeling_error_deg_per_deg,
    },
    heel: { sign: heel.sign, zero: radians(heel.zero_deg) },
    heelModel: { fullHeel: 0 },
    vane: {
      mastheadOffset: radians(vane.masthead_offset_deg),
      upwash: radians(vane.upwash_deg),
      upwashSlope: 0,
      upwashBroad: 0,
    },
    anemometer: {
      threshold: metresPerSecond(anemometer.threshold_kn),
      gain: anemometer.gain,
      speedUp: anemometer.speed_up,
    },
    leeway: { coefficient: siFromEdge(leeway.coefficient_deg_kn2_per_deg, "deg*kn2/deg") },
  };
}
