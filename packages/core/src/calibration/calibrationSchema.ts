import * as z from "zod";
import { QUANTITIES } from "../recording/readings.ts";
import { PARAMETER_NAMES } from "../sensors/parameterNames.ts";
import { AGREEMENT_KINDS } from "./calibration.ts";
import { settingsSchema } from "./settingsFile.ts";

/**
 * What a calibration file calls itself.
 *
 * @example
 * JSON.parse(calibrationFileText(calibration)).version === CALIBRATION_FILE.version // true
 */
export const CALIBRATION_FILE = { schema: "bothtacks-calibration", version: 1 } as const;

const moment = z.iso.datetime();
const count = z.number().int().min(0);
const spread = z.number().min(0);
/** A number that there may be none of: null in the file, NaN here. */
const numberOrNone = z.number().nullable();

const parameterSchema = z.strictObject({
  name: z.enum(PARAMETER_NAMES),
  unit: z.string(),
  value: z.number(),
  sd: spread,
  prior_mean: z.number(),
  prior_sd: spread,
  informed_share: z.number().min(0).max(1),
});

const agreementSchema = z.strictObject({
  kind: z.enum(AGREEMENT_KINDS),
  unit: z.enum(["deg", "ln"]),
  value: numberOrNone,
  sd: numberOrNone,
  contrasts: count,
});

const threeAgreements = z.tuple([agreementSchema, agreementSchema, agreementSchema]);

const recordingSchema = z.strictObject({
  files: z.array(z.string()),
  start: moment,
  end: moment,
  lines: z.strictObject({ lines: count, used: count, ignored: count, problems: count }),
  chosen_sources: z.array(
    z.strictObject({
      quantity: z.enum(QUANTITIES),
      name: z.string(),
      why: z.string(),
      rate_hz: numberOrNone,
    }),
  ),
  directions_are: z.enum(["true", "magnetic"]),
});

const wanderSchema = z.strictObject({
  slow_direction_deg_per_sqrt_s: spread,
  slow_log_speed_per_sqrt_s: spread,
  fast_direction_deg: spread,
  fast_log_speed: spread,
  fast_s: spread,
});

/** The leeway coefficient of a tack, in deg·kn²/deg. */
const tackLeewaySchema = z.strictObject({
  coefficient: z.number(),
  sd: spread,
  informed_share: z.number().min(0).max(1),
});

const leewayByTackSchema = z.strictObject({
  starboard: tackLeewaySchema,
  port: tackLeewaySchema,
  /** Starboard less port, as a share of their mean. */
  difference: z.strictObject({ share: z.number(), sd: spread, informed_share: z.number().min(0).max(1) }),
});

/** The calibration file: degrees, knots, ISO 8601 times in UTC; a number that there was none of is null. */
export const calibrationSchema = z.strictObject({
  schema: z.literal(CALIBRATION_FILE.schema),
  version: z.literal(CALIBRATION_FILE.version),
  made: moment,
  boat: z.record(z.string(), z.unknown()),
  recording: recordingSchema,
  base: z.enum(["sensors without corrections", "unknown corrections"]),
  active: settingsSchema,
  increment: settingsSchema,
  total: settingsSchema,
  parameters: z.array(parameterSchema),
  /** Row by row, in the units of the parameters: the square of an sd stands on the diagonal. */
  covariance: z.array(z.array(z.number())),
  wander: wanderSchema,
  leeway_by_tack: leewayByTackSchema.optional(),
  rows: count,
  outliers: z.array(moment),
  agreements: z.strictObject({ before: threeAgreements, after: threeAgreements }),
  fit_notes: z.array(z.string()),
  notes: z.array(z.string()),
});

export type CalibrationInFile = z.output<typeof calibrationSchema>;
