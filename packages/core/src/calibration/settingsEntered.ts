import type { SensorSettings } from "../sensors/parameters.ts";
import { settingsDifference } from "./activeSettings.ts";
import type { ActiveSettings } from "./boat.ts";
import type { ExerciseRecord } from "./boatRecord.ts";
import type { FindingName } from "./findings.ts";
import { settingsInFile } from "./settingsFile.ts";

/** The groups of settings that findings belong to. */
const groupsIn = (names: readonly FindingName[]): readonly (keyof SensorSettings)[] =>
  (["speed", "compass", "heel", "anemometer"] as const).filter((group) =>
    names.some((name) => name.startsWith(`${group}.`)),
  );

/**
 * What is active once what an exercise found is keyed in: its groups of settings, on top of what stands in the instruments.
 *
 * @returns undefined where the exercise has no settings, or counts from another start than what stands there. Never throws.
 */
export function settingsAfterExercise(
  { total, findings, settings }: ExerciseRecord,
  present: ActiveSettings,
): ActiveSettings | undefined {
  if (total === undefined || settings.base !== present.base) return undefined;
  const groups = groupsIn(findings.map(({ name }) => name));
  const replaced = Object.fromEntries(groups.map((group) => [group, total[group]]));
  return { base: present.base, active: { ...present.active, ...replaced } };
}

/** Each setting that differs, as "speed.gain_port: 1 to 1.03", in the units of files. Never throws. */
export function settingsChanges(from: SensorSettings, to: SensorSettings): readonly string[] {
  if (settingsDifference(from, to) === undefined) return [];
  const [before, after] = [settingsInFile(from), settingsInFile(to)].map((all) =>
    Object.entries(all).flatMap(([group, fields]) =>
      Object.entries(fields).map(([field, value]) => [`${group}.${field}`, value as number] as const),
    ),
  );
  const now = new Map(after);
  return before!.flatMap(([name, was]) => {
    const is = now.get(name) ?? Number.NaN;
    return Number(was.toPrecision(6)) === Number(is.toPrecision(6))
      ? []
      : [`${name}: ${Number(was.toPrecision(4))} to ${Number(is.toPrecision(4))}`];
  });
}
