import type { Plan } from "../judge/plan.ts";
import type { Exercise, ExerciseName } from "../judge/plannedLeg.ts";
import { secondsOfLeg } from "../judge/plannedLeg.ts";
import { degrees, knots } from "../units.ts";
import { HALF_WIDTH_95, plain } from "./format.ts";

const minutes = (seconds: number): string => {
  const count = Math.round(seconds / 60);
  return count === 1 ? "one minute" : `${count} minutes`;
};

const eachLeg = ({ legs }: Exercise): string => minutes(secondsOfLeg(legs[0]!));

function speedOf({ legs }: Exercise): string {
  const [leg] = legs;
  return leg !== undefined && leg.kind !== "sail" ? `${plain(knots(leg.speed), 1)} kn` : "";
}

function angleOf({ legs }: Exercise): string {
  const [leg] = legs;
  return leg?.kind === "sail" && typeof leg.angle === "number" ? `${plain(degrees(leg.angle), 0)}°` : "";
}

const reach =
  (kind: string) =>
  (exercise: Exercise): string =>
    `Sail a ${kind} reach, some ${angleOf(exercise)} to the true wind, ${eachLeg(exercise)} on starboard tack and as long on port`;

const SENTENCES: Readonly<Record<ExerciseName, (exercise: Exercise) => string>> = {
  "motor along the wind": (one) =>
    `Motor with the sails down straight into the wind and then straight away from it, at ${speedOf(one)}, ${eachLeg(one)} each way`,
  "motor across the wind": (one) =>
    `Motor with the sails down square across the wind, to one side and back, at ${speedOf(one)}, ${eachLeg(one)} each way`,
  "motor slowly": (one) =>
    `Motor with the sails down slowly, at ${speedOf(one)}, straight into the wind and straight away from it, ${eachLeg(one)} each way`,
  circles: (one) =>
    `Motor with the sails down in one slow circle to starboard and one to port, at ${speedOf(one)}, ${eachLeg(one)} each, clear of steel and of other boats`,
  tacks: (one) =>
    `Sail close-hauled, steering by the sails and not by the display, ${eachLeg(one)} on starboard tack and as long on port`,
  gybes: (one) => `Sail downwind, ${eachLeg(one)} on starboard gybe and as long on port`,
  "close reaches": reach("close"),
  "beam reaches": reach("beam"),
  "broad reaches": reach("broad"),
};

const often = (times: number): string => (times === 1 ? "" : times === 2 ? ", twice" : `, ${times} times`);

/** Exercises that follow each other and are the same, counted. */
function counted(
  exercises: readonly Exercise[],
): readonly { readonly exercise: Exercise; readonly times: number }[] {
  const runs: { readonly exercise: Exercise; readonly times: number }[] = [];
  for (const exercise of exercises) {
    const last = runs.at(-1);
    if (last?.exercise === exercise) runs[runs.length - 1] = { exercise, times: last.times + 1 };
    else runs.push({ exercise, times: 1 });
  }
  return runs;
}

/**
 * What to do, in order: a sentence for each exercise, with minutes. Never throws.
 *
 * @example
 * exerciseWords(planFrom(fit, boat, calibration.recording.chosen, { seconds: 900 })).length > 0 // true
 */
export const exerciseWords = ({ exercises }: Pick<Plan, "exercises">): readonly string[] =>
  counted(exercises).map(({ exercise, times }) => `${SENTENCES[exercise.name](exercise)}${often(times)}.`);

/** The same exercises wherever they stand counted together, in the order in which they first come: for a short list. Never throws. */
export function briefExerciseWords({ exercises }: Pick<Plan, "exercises">): readonly string[] {
  const kinds = [...new Set(exercises)];
  const sorted = kinds.flatMap((kind) => exercises.filter((exercise) => exercise === kind));
  return exerciseWords({ exercises: sorted });
}

/** What an outing is expected to do for the direction between tacks, in a sentence. Never throws. */
export function expectationSentence({ measures, seconds }: Plan): string {
  const gap = measures.find(({ kind }) => kind === "tack gap upwind");
  const shown = (sd: number | undefined): string =>
    `± ${plain(HALF_WIDTH_95 * degrees(sd ?? Number.NaN), 1)}°`;
  return `Together these ${Math.round(seconds / 60)} minutes are expected to bring what is known of the direction between tacks upwind from ${shown(gap?.before)} to ${shown(gap?.after)}; the command plan and the page Between regattas reckon it for other minutes and for the day's wind.`;
}
