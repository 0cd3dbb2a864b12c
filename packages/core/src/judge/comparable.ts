import { changesNothing } from "../calibration/activeReadings.ts";
import { settingsDifference } from "../calibration/activeSettings.ts";
import { leewayLawBreakers, WITHOUT_NAME } from "../calibration/boat.ts";
import type { Calibration } from "../calibration/calibration.ts";
import type { QuantityName } from "../recording/readings.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import { haveSameParameters } from "./compare.ts";

/** Whether the totals of two calibrations may be held against each other. */
export type Comparability =
  | {
      readonly status: "comparable";
      /** Sentences for the navigator. */
      readonly notes: readonly string[];
      /** Parameters that cannot be compared; `notes` says why. */
      readonly skipped: readonly ParameterName[];
      /** Whether the heel sensor reads the other way round in one of the two. */
      readonly heelTurned: boolean;
    }
  | { readonly status: "refused"; readonly reason: string };

const fileName = (path: string): string => path.split(/[\\/]/).at(-1) ?? path;

const overlaps = ({ recording: a }: Calibration, { recording: b }: Calibration): boolean =>
  a.start < b.end && b.start < a.end;

/** Whether one log is in both: a stretch of time in common, and all of it or the name of a file. */
function sharesRecording(one: Calibration, other: Calibration): boolean {
  const [a, b] = [one.recording, other.recording];
  const names = new Set(a.files.map(fileName));
  const same = a.start === b.start && a.end === b.end;
  return overlaps(one, other) && (same || b.files.some((file) => names.has(fileName(file))));
}

/** Whether one of the two was made with all of the other's corrections keyed in, so that both count from the same start. */
const follows = (earlier: Calibration, later: Calibration): boolean =>
  settingsDifference(later.settings.active, earlier.fit.settings) === undefined;

/** Whether both were made with the same known corrections keyed in on top of the unknown ones. */
const sameKeyedIn = ({ settings: one }: Calibration, { settings: other }: Calibration): boolean =>
  !changesNothing(one.active) && settingsDifference(one.active, other.active) === undefined;

/** Why the totals do not count from the same start; undefined where they do. */
function baseRefusal(one: Calibration, other: Calibration, nothingKeyedIn: boolean): string | undefined {
  const bases = [one.settings.base, other.settings.base];
  const unknown = bases.filter((base) => base === "unknown corrections").length;
  if (unknown === 1)
    return "for one of the calibrations it is known which corrections were active in the instruments, for the other it is not, so their totals do not count from the same start; state in a boat file (active_settings) what was active, and calibrate anew";
  if (unknown === 0 || follows(one, other) || follows(other, one) || sameKeyedIn(one, other))
    return undefined;
  const noneSince = settingsDifference(one.settings.active, other.settings.active) === undefined;
  if (nothingKeyedIn && noneSince) return undefined;
  return nothingKeyedIn
    ? "different corrections were active in the instruments, which contradicts that nothing was keyed in between"
    : "nobody said which corrections were active in the instruments, so what was keyed in between the two recordings would look like a move of the sensors; state in a boat file (active_settings) what was active, calibrate the later log with --from the earlier calibration if all of that was keyed in, or say that nothing was (--nothing-keyed-in)";
}

const leewayLeftOut = ({ boat }: Calibration): boolean => leewayLawBreakers(boat.rig).length > 0;

function refusal(one: Calibration, other: Calibration, nothingKeyedIn: boolean): string | undefined {
  const names = [one.boat.name, other.boat.name];
  if (names[0] !== names[1] && !names.includes(WITHOUT_NAME))
    return `the calibrations are of two boats, ${names.join(" and ")}`;
  if (!haveSameParameters(one.fit, other.fit))
    return "the calibrations hold different parameters: they were made by different versions of the program; calibrate the older log anew";
  if (sharesRecording(one, other))
    return "both were made from the same recording, which cannot tell what has moved since";
  if (leewayLeftOut(one) !== leewayLeftOut(other))
    return "one was made with leeway and the other without, since the boat files tell of different rigs: what leeway left open, other settings took over";
  return baseRefusal(one, other, nothingKeyedIn);
}

const sourceOf = ({ recording }: Calibration, ...quantities: readonly QuantityName[]) =>
  recording.chosen.find(({ source }) => quantities.includes(source.quantity))?.source;

/** Sensors by the quantities that they are read from, as a sailor calls them. */
const SENSORS: readonly (readonly [words: string, ...quantities: readonly QuantityName[]])[] = [
  ["wind angle", "apparentWindAngle"],
  ["boat speed", "speedThroughWater"],
  ["heading", "headingMagnetic", "headingTrue"],
  ["heel", "heel"],
];

function sourceNotes(one: Calibration, other: Calibration): readonly string[] {
  return SENSORS.flatMap(([words, ...quantities]) => {
    const [then, now] = [sourceOf(one, ...quantities), sourceOf(other, ...quantities)];
    return then && now && then.name !== now.name
      ? [
          `The ${words} came from ${then.name} in the first recording and from ${now.name} in the second: a difference may be that of two sensors.`,
        ]
      : [];
  });
}

const COMPASS = (name: string): boolean => name.startsWith("compass.");

/** What cannot be compared, each with a sentence that says why. */
function skippedIn(one: Calibration, other: Calibration) {
  const north = [one, other].map((each) => sourceOf(each, "headingMagnetic", "headingTrue")?.quantity);
  const otherNorth = north[0] !== north[1] && north.every((quantity) => quantity !== undefined);
  const heelTurned = one.fit.settings.heel.sign !== other.fit.settings.heel.sign;
  const skipped = one.fit.parameters.flatMap(({ name }) =>
    (otherNorth && COMPASS(name)) || (heelTurned && name === "heel.zero") ? [name] : [],
  );
  const notes = otherNorth
    ? [
        "One log holds magnetic headings and the other true ones, on which deviation is counted differently: the compass was not compared.",
      ]
    : [];
  return { skipped, notes, heelTurned };
}

function notesOn(one: Calibration, other: Calibration): readonly string[] {
  const notes: string[] = [];
  if (one.boat.name !== other.boat.name)
    notes.push("One of the calibrations names no boat; both were taken for the same.");
  if (one.boat.sails !== other.boat.sails)
    notes.push(
      "Other sails were set: upwash, and the speed-up of the wind over the sails, may differ for that alone.",
    );
  if (overlaps(one, other))
    notes.push("The recordings overlap in time; what is in both makes them look more alike than they are.");
  return notes;
}

/**
 * Whether two calibrations may be compared: totals that count from the same start, two recordings of one boat fitted with the
 * same law of leeway.
 *
 * @param nothingKeyedIn the user's word that no correction was keyed in between two recordings of unknown corrections
 * @returns status with sentences; the reason of a refusal stands after a file's name. Never throws.
 * @example
 * // one recording cannot tell what has moved since
 * comparability(calibration, calibration, true).status // "refused"
 */
export function comparability(one: Calibration, other: Calibration, nothingKeyedIn: boolean): Comparability {
  const reason = refusal(one, other, nothingKeyedIn);
  if (reason !== undefined) return { status: "refused", reason };
  const { skipped, notes, heelTurned } = skippedIn(one, other);
  const said = [...notes, ...notesOn(one, other), ...sourceNotes(one, other)];
  return { status: "comparable", notes: said, skipped, heelTurned };
}
