import type { SensorSettings } from "../sensors/parameters.ts";
import type { ActiveSettings } from "./boat.ts";
import { type SettingsInFile, settingsInFile } from "./settingsFile.ts";

/**
 * What total settings add to the active ones: differences, for gains and the sign of heel the factor
 * total / active. Where nothing was active it is the total itself.
 * Never throws.
 *
 * @example
 * const total = { ...noCorrections, speed: { intercept: 0.2, gainStarboard: 1.5, gainPort: 1.5 } };
 * const active = { ...noCorrections, speed: { intercept: 0.1, gainStarboard: 1.25, gainPort: 1.25 } };
 * settingsIncrement(total, active).speed.gainPort // 1.2
 */
export function settingsIncrement(total: SensorSettings, active: SensorSettings): SensorSettings {
  const { speed, compass, heel, heelModel, vane, anemometer, leeway } = total;
  return {
    speed: {
      intercept: speed.intercept - active.speed.intercept,
      gainStarboard: speed.gainStarboard / active.speed.gainStarboard,
      gainPort: speed.gainPort / active.speed.gainPort,
    },
    compass: {
      a: compass.a - active.compass.a,
      b: compass.b - active.compass.b,
      c: compass.c - active.compass.c,
      d: compass.d - active.compass.d,
      e: compass.e - active.compass.e,
      heelingError: compass.heelingError - active.compass.heelingError,
    },
    heel: { sign: heel.sign === active.heel.sign ? 1 : -1, zero: heel.zero - active.heel.zero },
    heelModel: { fullHeel: heelModel.fullHeel - active.heelModel.fullHeel },
    vane: {
      mastheadOffset: vane.mastheadOffset - active.vane.mastheadOffset,
      upwash: vane.upwash - active.vane.upwash,
      upwashSlope: vane.upwashSlope - active.vane.upwashSlope,
      upwashBroad: vane.upwashBroad - active.vane.upwashBroad,
    },
    anemometer: {
      threshold: anemometer.threshold - active.anemometer.threshold,
      gain: anemometer.gain / active.anemometer.gain,
      speedUp: anemometer.speedUp - active.anemometer.speedUp,
    },
    leeway: { coefficient: leeway.coefficient - active.leeway.coefficient },
  };
}

/**
 * Settings nearer to each other than this are the same: 0.01° or kn, 0.0005 of a factor. A tenth of what an
 * instrument's display resolves (0.1°, 0.1 kn, 0.5 %), and far more than any conversion of units loses.
 */
const TOLERANCES: readonly (readonly [ending: string, tolerance: number])[] = [
  ["_deg", 0.01],
  ["_kn", 0.01],
  ["per_deg", 0.01],
  ["", 0.0005],
];

const toleranceOf = (field: string): number =>
  TOLERANCES.find(([ending]) => field.endsWith(ending))?.[1] ?? 0;

type NamedValue = readonly [field: string, value: number];

const namedValues = (settings: SettingsInFile): readonly NamedValue[] =>
  Object.entries(settings).flatMap(([group, fields]) =>
    Object.entries(fields).map(([field, value]): NamedValue => [`${group}.${field}`, value]),
  );

/**
 * The first setting in which two differ, as `vane.upwash_deg: 2 against 0`; undefined when they are the same.
 *
 * @param share of the tolerance of 0.01° or kn and 0.0005 of a factor that counts as the same; 0: to the last digit
 * @returns Never throws.
 * @example
 * const other = { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: radians(2) } };
 * settingsDifference(other, noCorrections) // "vane.masthead_offset_deg: 2 against 0"
 */
export function settingsDifference(
  one: SensorSettings,
  other: SensorSettings,
  share = 1,
): string | undefined {
  const others = new Map(namedValues(settingsInFile(other)));
  for (const [field, value] of namedValues(settingsInFile(one))) {
    const counterpart = others.get(field) ?? Number.NaN;
    if (!(Math.abs(value - counterpart) <= share * toleranceOf(field)))
      return `${field}: ${value} against ${counterpart}`;
  }
  return undefined;
}

/** Whether a calibration holds for a recording, and what to tell the navigator. */
export type Applicability =
  /** `note` is a sentence for the navigator where nothing is known of what was active. */
  | { readonly status: "applicable"; readonly note: string | undefined }
  | { readonly status: "refused"; readonly reason: string };

const described = ({ base }: ActiveSettings): string =>
  base === "unknown corrections" ? "unknown corrections" : "known corrections";

/**
 * Whether a calibration holds for a recording: only when the corrections that were active in the instruments are the
 * ones that were active when the calibration's own log was made. Otherwise something would be corrected twice or not at all.
 * Both unknown is allowed, and said.
 *
 * @returns status, with the sentence to show. Never throws.
 * @example
 * const known = { base: "sensors without corrections", active: noCorrections };
 * applicability(known, known).status // "applicable"
 */
export function applicability(recording: ActiveSettings, calibration: ActiveSettings): Applicability {
  if (recording.base !== calibration.base)
    return {
      status: "refused",
      reason:
        `the calibration was made on ${described(calibration)} in the instruments, ` +
        `the recording on ${described(recording)}: state in a boat file (active_settings) what was active when it was made`,
    };
  const difference = settingsDifference(recording.active, calibration.active);
  if (difference !== undefined)
    return {
      status: "refused",
      reason: `other corrections were active in the instruments when the recording was made than in the calibration's own log (${difference})`,
    };
  if (recording.base === "sensors without corrections") return { status: "applicable", note: undefined };
  return {
    status: "applicable",
    note:
      "Nobody said which corrections were active in the instruments, here or when the calibration was made: " +
      "the result holds only if nothing was keyed in between.",
  };
}
