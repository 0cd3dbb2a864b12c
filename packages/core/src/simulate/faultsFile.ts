import { edgeFromSi, siFromEdge } from "../calibration/edgeUnits.ts";
import type { BoatFaults } from "./faults.ts";
import type { ScenarioInFile } from "./scenarioSchema.ts";

type FaultsInFile = ScenarioInFile["faults"];

/** Faults, in SI units and radians, of those in a scenario file. Never throws. */
export function faultsFromFile({ speed, compass, heel, vane, anemometer, leeway }: FaultsInFile): BoatFaults {
  const angle = (degrees: number): number => siFromEdge(degrees, "deg");
  return {
    speed: {
      deficit: siFromEdge(speed.deficit_kn, "kn"),
      deficitFalling: speed.deficit_falling,
      gainStarboard: speed.gain_starboard,
      gainPort: speed.gain_port,
    },
    compass: {
      a: angle(compass.a_deg),
      b: angle(compass.b_deg),
      c: angle(compass.c_deg),
      d: angle(compass.d_deg),
      e: angle(compass.e_deg),
      third: angle(compass.third_deg),
      thirdPhase: angle(compass.third_phase_deg),
      heelingError: compass.heeling_error_deg_per_deg,
    },
    heel: { sign: heel.sign, zero: angle(heel.zero_deg), gain: heel.gain },
    vane: {
      mastheadOffset: angle(vane.masthead_offset_deg),
      upwash: angle(vane.upwash_deg),
      upwashAngle: angle(vane.upwash_angle_deg),
      upwashNarrowness: vane.upwash_narrowness,
      upwashSpeed: siFromEdge(vane.upwash_speed_kn, "kn"),
      upwashWidth: vane.upwash_width,
      trimWander: vane.trim_wander,
    },
    anemometer: {
      threshold: siFromEdge(anemometer.threshold_kn, "kn"),
      gain: anemometer.gain,
      speedUp: anemometer.speed_up,
    },
    leeway: {
      coefficient: siFromEdge(leeway.coefficient_deg_kn2_per_deg, "deg*kn2/deg"),
      exponent: leeway.exponent,
    },
  };
}

/** Faults as a scenario file holds them: the inverse of `faultsFromFile`. Never throws. */
export function faultsInFile({ speed, compass, heel, vane, anemometer, leeway }: BoatFaults): FaultsInFile {
  const inDegrees = (angle: number): number => edgeFromSi(angle, "deg");
  return {
    speed: {
      deficit_kn: edgeFromSi(speed.deficit, "kn"),
      deficit_falling: speed.deficitFalling,
      gain_starboard: speed.gainStarboard,
      gain_port: speed.gainPort,
    },
    compass: {
      a_deg: inDegrees(compass.a),
      b_deg: inDegrees(compass.b),
      c_deg: inDegrees(compass.c),
      d_deg: inDegrees(compass.d),
      e_deg: inDegrees(compass.e),
      third_deg: inDegrees(compass.third),
      third_phase_deg: inDegrees(compass.thirdPhase),
      heeling_error_deg_per_deg: compass.heelingError,
    },
    heel: { sign: heel.sign, zero_deg: inDegrees(heel.zero), gain: heel.gain },
    vane: {
      masthead_offset_deg: inDegrees(vane.mastheadOffset),
      upwash_deg: inDegrees(vane.upwash),
      upwash_angle_deg: inDegrees(vane.upwashAngle),
      upwash_narrowness: vane.upwashNarrowness,
      upwash_speed_kn: edgeFromSi(vane.upwashSpeed, "kn"),
      upwash_width: vane.upwashWidth,
      trim_wander: vane.trimWander,
    },
    anemometer: {
      threshold_kn: edgeFromSi(anemometer.threshold, "kn"),
      gain: anemometer.gain,
      speed_up: anemometer.speedUp,
    },
    leeway: {
      coefficient_deg_kn2_per_deg: edgeFromSi(leeway.coefficient, "deg*kn2/deg"),
      exponent: leeway.exponent,
    },
  };
}
