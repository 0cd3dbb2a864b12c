import * as z from "zod";
import { QUANTITIES } from "../recording/readings.ts";
import { noCorrections } from "../sensors/noCorrections.ts";
import {
  type ActiveSettings,
  type Boat,
  STEERED_BY,
  STEP_NAMES,
  TABLE_PLACES,
  WITHOUT_NAME,
} from "./boat.ts";
import { checked, versionedObject } from "./checkedFile.ts";
import { edgeFromSi, siFromEdge } from "./edgeUnits.ts";
import { RefusedFile, shown } from "./refusedFile.ts";
import { settingsFromFile, settingsInFile, settingsSchema } from "./settingsFile.ts";

/** The mast of a boat that does not tell: a racing yacht of some 10 to 12 m. Common practice; no source. */
const USUAL_MAST_HEIGHT_M = 15;

/**
 * What a boat file calls itself.
 *
 * @example
 * boatInFile(UNKNOWN_BOAT).schema === BOAT_FILE.schema // true
 */
export const BOAT_FILE = { schema: "bothtacks-boat", version: 1 } as const;

const flag = z.boolean().default(false);
const height = z.number().positive().max(100);

const computerSchema = z.strictObject({
  corrects_heel: flag,
  corrects_leeway: flag,
  table: z.enum(TABLE_PLACES).default("apparent"),
});

/** The boat file. Every field may be left out; the defaults stand here. */
export const boatSchema = z.strictObject({
  schema: z.literal(BOAT_FILE.schema).default(BOAT_FILE.schema),
  version: z.literal(BOAT_FILE.version).default(BOAT_FILE.version),
  name: z.string().default(WITHOUT_NAME),
  mast_height_m: height.default(USUAL_MAST_HEIGHT_M),
  /** Above the axis of roll, near the waterline; by default the height of the mast. */
  wind_sensor_height_m: height.optional(),
  /** Forward of the axis of pitch, near midships. */
  wind_sensor_forward_m: z.number().min(-100).max(100).default(0),
  computer: computerSchema.optional(),
  /** The steps in which the instruments take numbers. */
  steps: z.partialRecord(z.enum(STEP_NAMES), z.number().positive()).optional(),
  rig: z.strictObject({ rotating_mast: flag, canting_keel: flag, foils: flag, multihull: flag }).prefault({}),
  sails: z.string().default("all"),
  steered_by: z.enum(STEERED_BY).default("unknown"),
  /** "none": the log holds the sensors' own readings; "unknown"; or the corrections that were keyed in. */
  active_settings: z.unknown().default("unknown"),
  variation_deg: z.number().min(-180).max(180).optional(),
  heel_sensor_sign: z.literal(["auto", 1, -1]).default("auto"),
  sources: z.partialRecord(z.enum(QUANTITIES), z.string()).default({}),
});

/** A boat as its file holds it, in metres and degrees. */
export type BoatInFile = z.output<typeof boatSchema>;

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** The given groups of settings, completed by settings that change nothing. */
function completed(given: Fields): Fields {
  const whole: Record<string, unknown> = { ...given };
  for (const [group, values] of Object.entries(settingsInFile(noCorrections))) {
    const own = given[group];
    if (own === undefined) whole[group] = values;
    else if (isFields(own)) whole[group] = { ...values, ...own };
  }
  return whole;
}

function activeSettings(value: unknown, file: string): ActiveSettings {
  const field = "active_settings";
  if (value === "unknown") return { base: "unknown corrections", active: noCorrections };
  if (value === "none") return { base: "sensors without corrections", active: noCorrections };
  if (!isFields(value))
    throw new RefusedFile(file, field, '"none", "unknown" or an object of settings', shown(value));
  const settings = checked(settingsSchema, completed(value), file, [field]);
  return { base: "sensors without corrections", active: settingsFromFile(settings) };
}

function boatOf(fields: BoatInFile, file: string): Boat {
  const { rig } = fields;
  const computer = fields.computer ?? computerSchema.parse({});
  return {
    name: fields.name,
    mastHeight: fields.mast_height_m,
    windSensorHeight: fields.wind_sensor_height_m ?? fields.mast_height_m,
    windSensorForward: fields.wind_sensor_forward_m,
    computer: {
      correctsHeel: computer.corrects_heel,
      correctsLeeway: computer.corrects_leeway,
      table: computer.table,
    },
    computerIs: fields.computer ? "given" : "assumed",
    ...(fields.steps ? { steps: fields.steps } : {}),
    rig: {
      rotatingMast: rig.rotating_mast,
      cantingKeel: rig.canting_keel,
      foils: rig.foils,
      multihull: rig.multihull,
    },
    sails: fields.sails,
    steeredBy: fields.steered_by,
    settings: activeSettings(fields.active_settings, file),
    variation: siFromEdge(fields.variation_deg ?? Number.NaN, "deg"),
    heelSensorSign: fields.heel_sensor_sign,
    sources: fields.sources,
  };
}

/** The boat that a file's fields describe, already taken out of JSON. @throws RefusedFile */
export const boatFromFields = (value: unknown, file: string, at: readonly string[] = []): Boat =>
  boatOf(checked(boatSchema, value, file, at), file);

/**
 * The boat that a boat file describes; what it leaves out takes its default.
 *
 * @param text JSON
 * @param file its name, for messages
 * @throws RefusedFile naming file, field, expected and received
 * @example
 * boatFromFile('{ "mast_height_m": 18 }', "boat.json").windSensorHeight // 18
 */
export const boatFromFile = (text: string, file: string): Boat =>
  boatFromFields(versionedObject(text, file, BOAT_FILE, "current"), file);

/**
 * The boat of someone who gives no boat file: every default.
 *
 * @example
 * UNKNOWN_BOAT.mastHeight // 15
 */
export const UNKNOWN_BOAT: Boat = boatFromFields({}, "");

function activeInFile({ base, active }: ActiveSettings): unknown {
  if (base === "unknown corrections") return "unknown";
  return settingsInFile(active);
}

const computerInFile = ({ computer }: Boat): z.output<typeof computerSchema> => ({
  corrects_heel: computer.correctsHeel,
  corrects_leeway: computer.correctsLeeway,
  table: computer.table,
});

/**
 * A boat as its file holds it: the inverse of `boatFromFile`, with every default written out but that of a computer that
 * was assumed. Never throws.
 *
 * @example
 * const { mast_height_m } = boatInFile({ ...UNKNOWN_BOAT, mastHeight: 18 });
 * mast_height_m // 18
 */
export function boatInFile(boat: Boat): BoatInFile {
  return {
    ...BOAT_FILE,
    name: boat.name,
    mast_height_m: boat.mastHeight,
    wind_sensor_height_m: boat.windSensorHeight,
    wind_sensor_forward_m: boat.windSensorForward,
    ...(boat.computerIs === "assumed" ? {} : { computer: computerInFile(boat) }),
    ...(boat.steps ? { steps: { ...boat.steps } } : {}),
    rig: {
      rotating_mast: boat.rig.rotatingMast,
      canting_keel: boat.rig.cantingKeel,
      foils: boat.rig.foils,
      multihull: boat.rig.multihull,
    },
    sails: boat.sails,
    steered_by: boat.steeredBy,
    active_settings: activeInFile(boat.settings),
    ...(Number.isNaN(boat.variation) ? {} : { variation_deg: edgeFromSi(boat.variation, "deg") }),
    heel_sensor_sign: boat.heelSensorSign,
    sources: { ...boat.sources },
  };
}
