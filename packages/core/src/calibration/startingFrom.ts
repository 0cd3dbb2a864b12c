import { settingsDifference } from "./activeSettings.ts";
import type { ActiveSettings, Boat } from "./boat.ts";
import type { Calibration } from "./calibration.ts";

/**
 * What is active in the instruments once all of a calibration was keyed in: its total, counted from its base.
 *
 * @returns settings in SI units and radians. Never throws.
 * @example
 * // the boat for the next log, once the corrections are keyed in
 * const next = { ...calibration.boat, settings: settingsAfter(calibration) };
 * next.settings.active.vane === calibration.fit.settings.vane // true
 */
export const settingsAfter = (calibration: Calibration): ActiveSettings => ({
  base: calibration.settings.base,
  active: calibration.fit.settings,
});

/**
 * The first thing in which a boat file's active settings contradict those of a calibration that was keyed in;
 * undefined where they agree or the boat file does not know. Never throws.
 */
export function contradiction(boat: Boat, after: ActiveSettings): string | undefined {
  if (boat.settings.base === "unknown corrections") return undefined;
  if (after.base !== boat.settings.base) return `the calibration counts from ${after.base}`;
  return settingsDifference(boat.settings.active, after.active);
}
