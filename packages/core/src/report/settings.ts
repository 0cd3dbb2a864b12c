import { type Boat, leewayLawBreakers, type SettingsBase } from "../calibration/boat.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { degrees, knots, METRES_PER_SECOND_IN_A_KNOT } from "../units.ts";
import type { TableRow } from "./cells.ts";
import { type Estimate, estimateOf } from "./estimate.ts";
import { HALF_WIDTH_95, LEARNT, plain, signed } from "./format.ts";
import { meanReading, withHeldIntercept } from "./heldIntercept.ts";

/** The settings that are one number each, in the order in which they are keyed in: each uses the ones before. */
export const SETTING_NAMES = [
  "boat speed intercept",
  "boat speed gain on starboard tack",
  "boat speed gain on port tack",
  "compass alignment (A)",
  "heel zero",
  "leeway coefficient",
  "masthead offset",
  "wind speed threshold",
  "wind speed gain",
] as const;

export type SettingName = (typeof SETTING_NAMES)[number];

/** Units in which settings are printed: how, with how many decimals, and what an SI value is in them. */
const UNITS = {
  degrees: { suffix: "°", decimals: 1, of: degrees },
  knots: { suffix: " kn", decimals: 2, of: knots },
  percent: { suffix: " %", decimals: 1, of: (share: number) => 100 * share },
  leeway: {
    suffix: " deg·kn²/deg",
    decimals: 1,
    of: (coefficient: number) => coefficient / METRES_PER_SECOND_IN_A_KNOT ** 2,
  },
} as const;

export type SettingUnit = keyof typeof UNITS;

interface Definition {
  readonly unit: SettingUnit;
  /** What the amount is added to; the leeway coefficient is no amount added but the value itself. */
  readonly to: string;
  readonly amount: (settings: SensorSettings) => number;
}

const DEFINITIONS: Readonly<Record<SettingName, Definition>> = {
  "boat speed intercept": {
    unit: "knots",
    to: "the boat speed reading",
    amount: ({ speed }) => speed.intercept,
  },
  "boat speed gain on starboard tack": {
    unit: "percent",
    to: "the boat speed reading on starboard tack",
    amount: ({ speed }) => speed.gainStarboard - 1,
  },
  "boat speed gain on port tack": {
    unit: "percent",
    to: "the boat speed reading on port tack",
    amount: ({ speed }) => speed.gainPort - 1,
  },
  "compass alignment (A)": { unit: "degrees", to: "the heading reading", amount: ({ compass }) => compass.a },
  "heel zero": { unit: "degrees", to: "the heel reading", amount: ({ heel }) => -heel.zero },
  "leeway coefficient": { unit: "leeway", to: "", amount: ({ leeway }) => leeway.coefficient },
  "masthead offset": {
    unit: "degrees",
    to: "the wind angle reading",
    amount: ({ vane }) => -vane.mastheadOffset,
  },
  "wind speed threshold": {
    unit: "knots",
    to: "the wind speed reading",
    amount: ({ anemometer }) => anemometer.threshold,
  },
  "wind speed gain": {
    unit: "percent",
    to: "the wind speed reading",
    amount: ({ anemometer }) => anemometer.gain - 1,
  },
};

/**
 * "key in": learnt, and further from what is set now than its own interval. "leave alone": learnt, and no further.
 * "not learnt": closer to what is usual than to the data. "no place": the boat's computer cannot hold it.
 */
export type Advice = "key in" | "leave alone" | "not learnt" | "no place";

/**
 * Why an amount that is to be keyed in is doubted all the same. "hardly beyond": its interval reaches most of the way to
 * what is set now. "for the others": by itself it would be left alone, but the settings that it goes with are keyed in. "one
 * day": a masthead offset from one day's sailing without motoring, in which that day's shear may be.
 */
export type Doubt = "hardly beyond" | "for the others" | "one day";

/** One setting: the amount to be added to the reading in all, SI, with what was added while the log was recorded. */
export interface SingleSetting {
  readonly name: SettingName;
  readonly unit: SettingUnit;
  readonly to: string;
  readonly estimate: Estimate;
  /** NaN where it is unknown. */
  readonly present: number;
  readonly advice: Advice;
  /** Empty unless the advice is to key in. */
  readonly doubts: readonly Doubt[];
}

/** An SI amount in the unit in which a setting is printed. Never throws. */
export const inUnit = (value: number, unit: SettingUnit): number => UNITS[unit].of(value);

/** "−2.4°": an amount as it is printed; the leeway coefficient, being no amount added, has no plus sign. */
export function amountText(value: number, unit: SettingUnit): string {
  const { decimals, suffix, of } = UNITS[unit];
  return `${(unit === "leeway" ? plain : signed)(of(value), decimals)}${suffix}`;
}

/** "± 0.7°": half the 95 % interval. */
export const intervalText = ({ sd }: Estimate, unit: SettingUnit): string =>
  `± ${plain(HALF_WIDTH_95 * UNITS[unit].of(sd), UNITS[unit].decimals)}${UNITS[unit].suffix}`;

/** What stood in the instruments; of unknown corrections only increments are known, but leeway is never an increment. */
const presentAmount = (name: SettingName, base: SettingsBase, active: SensorSettings): number =>
  name === "leeway coefficient" && base === "unknown corrections"
    ? Number.NaN
    : DEFINITIONS[name].amount(active);

/** What to do with a setting. */
function adviceOn(name: SettingName, estimate: Estimate, present: number, boat: Boat): Advice {
  const leeway = name === "leeway coefficient";
  if (leeway && !boat.computer.correctsLeeway) return "no place";
  if (!(estimate.informed >= LEARNT)) return "not learnt";
  if (leeway && leewayLawBreakers(boat.rig).length > 0) return "not learnt";
  const { unit } = DEFINITIONS[name];
  const change = Math.abs(estimate.value - present);
  const invisible = inUnit(change, unit) < 0.5 * 10 ** -UNITS[unit].decimals;
  return change <= HALF_WIDTH_95 * estimate.sd || invisible ? "leave alone" : "key in";
}

/** An amount of fewer intervals than this is hardly beyond its doubt: two thirds of it and more may be chance. */
const HARDLY = 1.5;

/** A recording shorter than this (s) has one day's wind only. */
export const ONE_DAY = 20 * 3600;

/** Whether the rows are one day's, and without motoring. Never throws. */
export function isOneDayUnderSail(rows: readonly TableRow[]): boolean {
  const starts = rows.map(({ start }) => start);
  const span =
    starts.reduce((a, b) => Math.max(a, b), -Infinity) - starts.reduce((a, b) => Math.min(a, b), Infinity);
  return !(span >= ONE_DAY) && rows.every(({ kind }) => kind === "sailing");
}

function doubtsOf(
  name: SettingName,
  estimate: Estimate,
  present: number,
  rows: readonly TableRow[],
): readonly Doubt[] {
  const hardly = Math.abs(estimate.value - present) < HARDLY * HALF_WIDTH_95 * estimate.sd;
  const oneDay = name === "masthead offset" && isOneDayUnderSail(rows);
  return [...(hardly ? (["hardly beyond"] as const) : []), ...(oneDay ? (["one day"] as const) : [])];
}

/** The setting with advice and doubts, as an estimate calls for them. Never throws. */
export function advised(
  setting: Omit<SingleSetting, "advice" | "doubts">,
  boat: Boat,
  rows: readonly TableRow[],
): SingleSetting {
  const { name, estimate, present } = setting;
  const advice = adviceOn(name, estimate, present, boat);
  return { ...setting, advice, doubts: advice === "key in" ? doubtsOf(name, estimate, present, rows) : [] };
}

/** Settings of one sensor that make up for each other: half of them is worse than none. */
const COMPANIONS: readonly (readonly SettingName[])[] = [
  ["boat speed intercept", "boat speed gain on starboard tack", "boat speed gain on port tack"],
  ["wind speed threshold", "wind speed gain"],
];

const isGain = (name: SettingName): boolean => name.includes("gain");

/** Keys in a gain that would be left alone, where its intercept or the other tack's gain is keyed in. */
function keyedTogether(settings: readonly SingleSetting[]): readonly SingleSetting[] {
  const isKeyed = (name: SettingName): boolean =>
    settings.some((setting) => setting.name === name && setting.advice === "key in");
  return settings.map((setting) => {
    const called = COMPANIONS.some((group) => group.includes(setting.name) && group.some(isKeyed));
    return called && isGain(setting.name) && setting.advice === "leave alone"
      ? { ...setting, advice: "key in", doubts: ["for the others"] }
      : setting;
  });
}

/** The intercept that each gain goes with, and the readings that it is averaged over. */
const GAINS: Partial<
  Readonly<Record<SettingName, readonly [SettingName, (rows: readonly TableRow[]) => number]>>
> = {
  "boat speed gain on starboard tack": [
    "boat speed intercept",
    (rows) => meanReading(rows, "stw", "starboard"),
  ],
  "boat speed gain on port tack": ["boat speed intercept", (rows) => meanReading(rows, "stw", "port")],
  "wind speed gain": ["wind speed threshold", (rows) => meanReading(rows, "aws")],
};

/**
 * The settings of one number each, with advice. What lies within its own interval of what is set now is left alone, so
 * that nothing is corrected on a boat with nothing wrong. Where an intercept stays as it was, the gain takes over its part
 * (M68); what makes up for each other is keyed in together.
 *
 * @param active settings that the instruments applied while the log was recorded, counted from `base`
 * @returns one for each of SETTING_NAMES. Never throws.
 */
export function singleSettings(
  fit: SolvedBoatFit,
  base: SettingsBase,
  active: SensorSettings,
  boat: Boat,
  rows: readonly TableRow[],
): readonly SingleSetting[] {
  const setting = (name: SettingName, amount: (settings: SensorSettings) => number): SingleSetting => {
    const { unit, to } = DEFINITIONS[name];
    const present = presentAmount(name, base, active);
    return advised({ name, unit, to, estimate: estimateOf(amount, fit), present }, boat, rows);
  };
  const settings = SETTING_NAMES.map((name) => {
    const { amount } = DEFINITIONS[name];
    const gain = GAINS[name];
    if (!gain) return setting(name, amount);
    const [interceptName, mean] = gain;
    const intercept = setting(interceptName, DEFINITIONS[interceptName].amount);
    if (intercept.advice === "key in") return setting(name, amount);
    return setting(
      name,
      withHeldIntercept(amount, DEFINITIONS[interceptName].amount, intercept.present, mean(rows)),
    );
  });
  return keyedTogether(settings);
}
