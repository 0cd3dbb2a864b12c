import * as z from "zod";
import type { SensorSettings } from "../sensors/parameters.ts";
import { edgeFromSi, siFromEdge } from "./edgeUnits.ts";

const number = z.number();
const gain = z.number().positive();

/** Settings as files hold them: degrees, knots, gains as plain factors; the leeway coefficient in deg·kn²/deg. */
export const settingsSchema = z.strictObject({
  speed: z.strictObject({ intercept_kn: number, gain_starboard: gain, gain_port: gain }),
  compass: z.strictObject({
    a_deg: number,
    b_deg: number,
    c_deg: number,
    d_deg: number,
    e_deg: number,
    heeling_error_deg_per_deg: number,
  }),
  heel: z.strictObject({ sign: z.literal([1, -1]), zero_deg: number }),
  heel_model: z.strictObject({ full_heel_deg: number }),
  vane: z.strictObject({
    masthead_offset_deg: number,
    upwash_deg: number,
    upwash_slope_deg: number,
    upwash_broad_deg: number,
  }),
  anemometer: z.strictObject({ threshold_kn: number, gain, speed_up: number }),
  leeway: z.strictObject({ coefficient_deg_kn2_per_deg: number }),
});

export type SettingsInFile = z.output<typeof settingsSchema>;

/** SI settings of those in a file. Never throws. */
export function settingsFromFile(file: SettingsInFile): SensorSettings {
  const { speed, compass, heel, heel_model, vane, anemometer, leeway } = file;
  const angle = (value: number): number => siFromEdge(value, "deg");
  return {
    speed: {
      intercept: siFromEdge(speed.intercept_kn, "kn"),
      gainStarboard: speed.gain_starboard,
      gainPort: speed.gain_port,
    },
    compass: {
      a: angle(compass.a_deg),
      b: angle(compass.b_deg),
      c: angle(compass.c_deg),
      d: angle(compass.d_deg),
      e: angle(compass.e_deg),
      heelingError: compass.heeling_error_deg_per_deg,
    },
    heel: { sign: heel.sign, zero: angle(heel.zero_deg) },
    heelModel: { fullHeel: angle(heel_model.full_heel_deg) },
    vane: {
      mastheadOffset: angle(vane.masthead_offset_deg),
      upwash: angle(vane.upwash_deg),
      upwashSlope: angle(vane.upwash_slope_deg),
      upwashBroad: angle(vane.upwash_broad_deg),
    },
    anemometer: {
      threshold: siFromEdge(anemometer.threshold_kn, "kn"),
      gain: anemometer.gain,
      speedUp: anemometer.speed_up,
    },
    leeway: { coefficient: siFromEdge(leeway.coefficient_deg_kn2_per_deg, "deg*kn2/deg") },
  };
}

/** Settings as a file holds them: the inverse of `settingsFromFile`. Never throws. */
export function settingsInFile(settings: SensorSettings): SettingsInFile {
  const { speed, compass, heel, heelModel, vane, anemometer, leeway } = settings;
  const angle = (value: number): number => edgeFromSi(value, "deg");
  const plain = (value: number): number => edgeFromSi(value, "1");
  return {
    speed: {
      intercept_kn: edgeFromSi(speed.intercept, "kn"),
      gain_starboard: plain(speed.gainStarboard),
      gain_port: plain(speed.gainPort),
    },
    compass: {
      a_deg: angle(compass.a),
      b_deg: angle(compass.b),
      c_deg: angle(compass.c),
      d_deg: angle(compass.d),
      e_deg: angle(compass.e),
      heeling_error_deg_per_deg: plain(compass.heelingError),
    },
    heel: { sign: heel.sign, zero_deg: angle(heel.zero) },
    heel_model: { full_heel_deg: angle(heelModel.fullHeel) },
    vane: {
      masthead_offset_deg: angle(vane.mastheadOffset),
      upwash_deg: angle(vane.upwash),
      upwash_slope_deg: angle(vane.upwashSlope),
      upwash_broad_deg: angle(vane.upwashBroad),
    },
    anemometer: {
      threshold_kn: edgeFromSi(anemometer.threshold, "kn"),
      gain: plain(anemometer.gain),
      speed_up: plain(anemometer.speedUp),
    },
    leeway: { coefficient_deg_kn2_per_deg: edgeFromSi(leeway.coefficient, "deg*kn2/deg") },
  };
}
