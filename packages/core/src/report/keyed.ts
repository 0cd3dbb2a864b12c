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
