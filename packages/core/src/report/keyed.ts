import type { SensorSettings } from "../sensors/parameters.ts";
import type { SettingName, SingleSetting } from "./settings.ts";

const NO_UPWASH = { upwash: 0, upwashSlope: 0, upwashBroad: 0 } as const;

/** What will stand in the instruments: the fitted amount where the advice is to key it in, else what stood there. */
export function keyedAmount(settings: readonly SingleSetting[], name: SettingName): number {
  const setting = settings.find((candidate) => candidate.name === name);
  if (!setting) return Number.NaN;
  return setting.advice === "key in" || Number.isNaN(setting.present)
    ? setting.estimate.value
    : setting.present;
}

/**
 * M67. Settings as a table may count on them: the single settings that were judged, keyed in or left alone, as they will
 * stand in the instruments; all else as fitted. So a table neither brings in what the advice leaves out nor takes credit for
 * what the single settings know; their doubt stands with them.
 *
 * @param fitted the fit's settings, or others near them
 * @param singles as advised
 * Never throws.
 */
export function withSettled(fitted: SensorSettings, singles: readonly SingleSetting[]): SensorSettings {
  const isSettled = (name: SettingName): boolean =>
    singles.some((one) => one.name === name && (one.advice === "key in" || one.advice === "leave alone"));
  const amount = (name: SettingName, otherwise: number): number =>
    isSettled(name) ? keyedAmount(singles, name) : otherwise;
  /** An intercept goes with its gain. */
  const beside = (gain: SettingName, name: SettingName, otherwise: number): number =>
    isSettled(gain) ? keyedAmount(singles, name) : otherwise;
  const { speed, anemometer, vane, heel, leeway } = fitted;
  return {
    ...fitted,
    speed: {
      intercept: beside("boat speed gain on starboard tack", "boat speed intercept", speed.intercept),
      gainStarboard: 1 + amount("boat speed gain on starboard tack", speed.gainStarboard - 1),
      gainPort: 1 + amount("boat speed gain on port tack", speed.gainPort - 1),
    },
    anemometer: {
      ...anemometer,
      threshold: beside("wind speed gain", "wind speed threshold", anemometer.threshold),
      gain: 1 + amount("wind speed gain", anemometer.gain - 1),
    },
    heel: { ...heel, zero: -amount("heel zero", -heel.zero) },
    vane: { ...vane, mastheadOffset: -amount("masthead offset", -vane.mastheadOffset) },
    leeway: { coefficient: amount("leeway coefficient", leeway.coefficient) },
  };
}

/**
 * The settings as they will stand in the instruments once the advice is followed. Upwash and speed-up are none of the
 * single settings but what the table is for, and are left out.
 *
 * @param active what the instruments applied while the log was recorded
 * @param heelSign of the installation
 * Never throws.
 */
export function keyedSettings(
  settings: readonly SingleSetting[],
  active: SensorSettings,
  heelSign: 1 | -1,
): SensorSettings {
  const amount = (name: SettingName): number => keyedAmount(settings, name);
  return {
    ...active,
    speed: {
      intercept: amount("boat speed intercept"),
      gainStarboard: 1 + amount("boat speed gain on starboard tack"),
      gainPort: 1 + amount("boat speed gain on port tack"),
    },
    heel: { sign: heelSign, zero: -amount("heel zero") },
    vane: { ...NO_UPWASH, mastheadOffset: -amount("masthead offset") },
    anemometer: {
      threshold: amount("wind speed threshold"),
      gain: 1 + amount("wind speed gain"),
      speedUp: 0,
    },
    leeway: { coefficient: amount("leeway coefficient") },
  };
}
