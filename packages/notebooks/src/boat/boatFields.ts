import { inWords } from "@bothtacks/core/page";
import type { LogsSeen } from "./workshop.ts";

/** A question of the boat form. Its path is that of the boat file's field, "computer.table". */
export interface Field {
  readonly path: string;
  /** With the unit. */
  readonly label: string;
  readonly kind: "number" | "words" | "flag" | readonly Choice[];
  /** What it is for, where the label does not say it. */
  readonly hint?: string;
}

/** What is written into the file, "" for nothing, and what it is called. */
export type Choice = readonly [value: string, label: string];

/** Questions that belong together. */
export interface Group {
  readonly title: string;
  readonly fields: readonly Field[];
}

/** Says how the corrections that were active are told; the only path that stands for a text or an object. */
export const ACTIVE = "active_settings";

/** Corrections that were keyed in, one by one. */
export const GIVEN = "given";

const number = (path: string, label: string, hint?: string): Field => ({
  path,
  label,
  kind: "number",
  ...(hint === undefined ? {} : { hint }),
});

const flag = (path: string, label: string): Field => ({ path, label, kind: "flag" });

const HER: Group = {
  title: "The boat",
  fields: [
    { path: "name", label: "Name", kind: "words" },
    number("mast_height_m", "Masthead above the water (m)"),
    number("wind_sensor_height_m", "Wind sensor above the axis of roll (m)", "Left empty: as the masthead."),
    number("wind_sensor_forward_m", "Wind sensor forward of midships (m)"),
    {
      path: "sails",
      label: "Sails set",
      kind: "words",
      hint: "Upwash depends on them: a word of your own.",
    },
    {
      path: "steered_by",
      label: "Steered by",
      kind: [
        ["", "not told"],
        ["sails", "the sails"],
        ["display", "a displayed wind angle"],
      ],
      hint: "Only a boat steered by her sails makes the same angle on both tacks.",
    },
    flag("rig.rotating_mast", "Rotating mast"),
    flag("rig.canting_keel", "Canting keel"),
    flag("rig.foils", "Foils"),
    flag("rig.multihull", "More than one hull"),
  ],
};

const COMPUTER: Group = {
  title: "The computer on board",
  fields: [
    {
      path: "computer.table",
      label: "Its wind table is entered with",
      kind: [
        ["", "not told"],
        ["apparent", "apparent wind"],
        ["true", "true wind"],
        ["none", "it has no table"],
      ],
      hint: "The numbers to key in are made for it.",
    },
    flag("computer.corrects_heel", "It corrects for heel"),
    flag("computer.corrects_leeway", "It corrects for leeway"),
  ],
};

const LOG: Group = {
  title: "The log",
  fields: [
    {
      path: ACTIVE,
      label: "Corrections active in the instruments",
      kind: [
        ["", "not known"],
        ["none", "none: the sensors' own readings"],
        [GIVEN, "those given below"],
      ],
      hint: "What is found comes on top of what was active.",
    },
    {
      path: "heel_sensor_sign",
      label: "Heel to starboard reads",
      kind: [
        ["", "found out by itself"],
        ["1", "positive"],
        ["-1", "negative"],
      ],
    },
    number("variation_deg", "Variation (°, east positive)", "Only for a log that holds no position."),
  ],
};

const active = (path: string, label: string, hint?: string): Field =>
  number(`${ACTIVE}.${path}`, label, hint);

const ADDED = "Added to the reading.";
const FACTOR = "The reading is multiplied by it: 1.05 for 5 % more.";

/** What may have been keyed in; empty for what was not. */
export const KEYED_IN: Group = {
  title: "Corrections that were active",
  fields: [
    active(
      "vane.masthead_offset_deg",
      "Masthead offset (°)",
      "What the unit reads too far to starboard: 2 where −2° is keyed in, to be added.",
    ),
    active("vane.upwash_deg", "Upwash, close-hauled (°)", "What the reading is too wide by."),
    active("vane.upwash_slope_deg", "Upwash, slope over wind (°)"),
    active("vane.upwash_broad_deg", "Upwash, broad (°)"),
    active("anemometer.threshold_kn", "Wind speed, threshold (kn)", ADDED),
    active("anemometer.gain", "Wind speed, gain (factor)", FACTOR),
    active("anemometer.speed_up", "Wind speed, speed-up off the wind"),
    active("speed.intercept_kn", "Boat speed, intercept (kn)", ADDED),
    active("speed.gain_starboard", "Boat speed, gain on starboard tack (factor)", FACTOR),
    active("speed.gain_port", "Boat speed, gain on port tack (factor)", FACTOR),
    active("compass.a_deg", "Compass, A (°)", ADDED),
    active("compass.b_deg", "Compass, B (°)"),
    active("compass.c_deg", "Compass, C (°)"),
    active("compass.d_deg", "Compass, D (°)"),
    active("compass.e_deg", "Compass, E (°)"),
    active("compass.heeling_error_deg_per_deg", "Compass, heeling error (° for each ° of heel)"),
    active(
      "heel.zero_deg",
      "Heel, zero (°)",
      "What the sensor shows upright, to starboard positive; taken off.",
    ),
    active("leeway.coefficient_deg_kn2_per_deg", "Leeway coefficient (deg·kn²/deg)"),
  ],
};

export const GROUPS: readonly Group[] = [HER, COMPUTER, LOG];

/** Which source to take where a log has several for one quantity. Never throws. */
export function sourceFields(summary: Pick<LogsSeen, "recording"> | undefined): readonly Field[] {
  const { chosen = [], others = [] } = summary?.recording ?? {};
  const all = [...chosen, ...others].map(({ source }) => source);
  const quantities = [...new Set(all.map(({ quantity }) => quantity))];
  return quantities.flatMap((quantity): readonly Field[] => {
    const names = all.filter((source) => source.quantity === quantity).map(({ name }) => name);
    const kind: readonly Choice[] = [["", "chosen by health"], ...names.map((name) => [name, name] as const)];
    return names.length < 2
      ? []
      : [{ path: `sources.${quantity}`, label: `Source of ${inWords(quantity)}`, kind }];
  });
}
