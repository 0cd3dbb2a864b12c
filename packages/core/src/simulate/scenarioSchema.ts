import * as z from "zod";
import { settingsSchema } from "../calibration/settingsFile.ts";
import { troubleSchema } from "./troublesFile.ts";

/**
 * What a scenario file calls itself.
 *
 * @example
 * scenarioInFile(scenario).version === SCENARIO_FILE.version // true
 */
export const SCENARIO_FILE = { schema: "bothtacks-scenario", version: 1 } as const;

/** Variation is modelled between these times. */
const EARLIEST = "2014-12-16T00:00:00Z";
const LATEST = "2029-11-12T00:00:00Z";

/** Longest sail that is simulated at once, s: a day. */
const LONGEST_STEP = 86_400;

const number = z.number();
const notNegative = number.min(0);
const share = number.min(0).max(1);
const gain = number.min(0.5).max(2);
const direction = number.min(-360).max(720);
const seconds = number.positive().max(LONGEST_STEP);
const tack = z.enum(["starboard", "port"]);

const stepSchema = z.discriminatedUnion(
  "kind",
  [
    z.strictObject({
      kind: z.literal("motor"),
      heading_deg: direction,
      speed_kn: notNegative.max(30),
      seconds,
    }),
    z.strictObject({
      kind: z.literal("circle"),
      turns: number.min(-20).max(20),
      rate_deg_per_s: number.min(0.5).max(30),
      speed_kn: notNegative.max(30),
    }),
    z.strictObject({ kind: z.literal("beat"), tack, seconds }),
    z.strictObject({ kind: z.literal("run"), tack, seconds }),
    z.strictObject({ kind: z.literal("luff"), tack, seconds }),
    z.strictObject({
      kind: z.literal("reach"),
      tack,
      true_wind_angle_deg: number.min(30).max(175),
      seconds,
    }),
  ],
  { error: 'one of "motor", "circle", "beat", "run", "reach", "luff"' },
);

const faultsSchema = z.strictObject({
  speed: z
    .strictObject({
      deficit_kn: notNegative.max(2).default(0),
      deficit_falling: share.default(0),
      gain_starboard: gain.default(1),
      gain_port: gain.default(1),
    })
    .prefault({}),
  compass: z
    .strictObject({
      a_deg: number.min(-180).max(180).default(0),
      b_deg: number.min(-20).max(20).default(0),
      c_deg: number.min(-20).max(20).default(0),
      d_deg: number.min(-10).max(10).default(0),
      e_deg: number.min(-10).max(10).default(0),
      third_deg: number.min(-5).max(5).default(0),
      third_phase_deg: direction.default(0),
      heeling_error_deg_per_deg: number.min(-0.5).max(0.5).default(0),
    })
    .prefault({}),
  heel: z
    .strictObject({ sign: z.literal([1, -1]).default(1), zero_deg: number.default(0), gain: gain.default(1) })
    .prefault({}),
  vane: z
    .strictObject({
      masthead_offset_deg: number.min(-180).max(180).default(0),
      upwash_deg: number.min(-20).max(20).default(0),
      upwash_angle_deg: number.min(10).max(90).default(36),
      upwash_narrowness: number.min(0.5).max(6).default(2),
      upwash_speed_kn: number.positive().default(14),
      upwash_width: number.positive().default(1.2),
      trim_wander: notNegative.max(1).default(0.06),
    })
    .prefault({}),
  anemometer: z
    .strictObject({
      threshold_kn: notNegative.max(5).default(0),
      gain: gain.default(1),
      speed_up: number.min(-0.5).max(0.5).default(0),
    })
    .prefault({}),
  leeway: z
    .strictObject({
      coefficient_deg_kn2_per_deg: notNegative.max(100).default(9.5),
      exponent: number.min(0).max(4).default(2),
    })
    .prefault({}),
});

const windSchema = z.strictObject({
  direction_deg: direction,
  speed_kn: number.min(0.1).max(60),
  direction_sd_deg: notNegative.max(30).default(6),
  turbulent_direction_sd_deg: notNegative.max(30).default(3),
  log_speed_sd: notNegative.max(0.6).default(0.12),
  turbulent_log_speed_sd: notNegative.max(0.6).default(0.06),
  turbulence_s: number.min(2).max(600).default(25),
  veer_deg: number.min(-180).max(180).default(0),
  rise: number.min(-2).max(2).default(0),
  bend_deg: number.min(-45).max(45).default(0),
  gust_tails: notNegative.max(0.24).optional(),
});

const shearSchema = z.strictObject({
  twist_deg: number.min(-30).max(30).default(0),
  twist_wander_deg: notNegative.max(10).default(0),
  speed_ratio: number.min(0.3).max(2).default(0.96),
});

const currentSchema = z.strictObject({
  strength_kn: notNegative.max(15).default(0),
  set_deg: direction.default(0),
  phase_deg: direction.default(0),
  wander_kn: notNegative.max(2).default(0),
});

const seaSchema = z.strictObject({
  roll_deg: notNegative.max(10).default(1.5),
  pitch_deg: notNegative.max(5).default(0.7),
  yaw_deg: notNegative.max(5).default(1),
  roll_hz: number.min(0.05).max(0.6).default(0.25),
  pitch_hz: number.min(0.05).max(0.6).default(0.4),
  skew: number.min(-0.5).max(0.5).optional(),
});

const helmSchema = z.strictObject({
  steers_by: z.enum(["sails", "display"]).default("sails"),
  asymmetry_deg: number.min(-20).max(20).default(0),
  noise_deg: notNegative.max(10).default(1.5),
});

const sensorFields = {
  present: z.boolean().default(true),
  lag_s: notNegative.max(20).default(0.5),
};
const damping = notNegative.max(60);

const logSchema = z.strictObject({
  wind: z
    .strictObject({
      ...sensorFields,
      damping_s: damping.default(1.5),
      noise_deg: notNegative.max(20).default(2),
      speed_noise_kn: notNegative.max(5).default(0.4),
    })
    .prefault({}),
  paddle: z
    .strictObject({
      ...sensorFields,
      damping_s: damping.default(2),
      noise_kn: notNegative.max(2).default(0.15),
    })
    .prefault({}),
  compass: z
    .strictObject({
      ...sensorFields,
      damping_s: damping.default(0.5),
      noise_deg: notNegative.max(20).default(0.6),
    })
    .prefault({}),
  heel: z
    .strictObject({
      ...sensorFields,
      damping_s: damping.default(0.8),
      noise_deg: notNegative.max(20).default(0.5),
    })
    .prefault({}),
  gps: z
    .strictObject({
      ...sensorFields,
      damping_s: damping.default(0.5),
      noise_kn: notNegative.max(2).default(0.08),
    })
    .prefault({}),
  wind_hz: z.literal([1, 2, 4]).default(1),
  heel_hz: z.literal([1, 2, 4]).default(1),
  angle_decimals: z.int().min(0).max(6).default(1),
  speed_decimals: z.int().min(0).max(6).default(2),
  headings: z.enum(["magnetic", "true"]).default("magnetic"),
  /** Corrections that the instruments apply; none where it is left out. */
  active_settings: settingsSchema.optional(),
  spikes_per_hour: notNegative.max(1000).default(0),
  silences_per_hour: notNegative.max(60).default(0),
  broken_lines_per_hour: notNegative.max(10_000).default(0),
  onboard_true_wind: z.boolean().default(false),
});

/** The scenario file. What is left out takes its default: a boat with nothing wrong, on a plain day. */
export const scenarioSchema = z.strictObject({
  schema: z.literal(SCENARIO_FILE.schema).default(SCENARIO_FILE.schema),
  version: z.literal(SCENARIO_FILE.version).default(SCENARIO_FILE.version),
  seed: z.int().min(0).default(1),
  start: z.iso
    .datetime()
    .refine((text) => text >= EARLIEST && text <= LATEST, {
      error: `a time from ${EARLIEST} to ${LATEST}`,
    })
    .default("2026-06-13T12:00:00Z"),
  latitude_deg: number.min(-85).max(85).default(49),
  longitude_deg: number.min(-180).max(180).default(-11),
  mast_height_m: number.positive().max(100).default(16),
  faults: faultsSchema.prefault({}),
  wind: windSchema,
  shear: shearSchema.prefault({}),
  current: currentSchema.prefault({}),
  sea: seaSchema.prefault({}),
  helm: helmSchema.prefault({}),
  plan: z.array(stepSchema).min(1),
  log: logSchema.prefault({}),
  /** What happens to sensors under way. */
  troubles: z.array(troubleSchema).optional(),
});

/** A scenario as its file holds it: degrees, knots, seconds. */
export type ScenarioInFile = z.output<typeof scenarioSchema>;
