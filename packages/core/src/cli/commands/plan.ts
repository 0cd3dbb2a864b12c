import { planFrom } from "../../judge/planFrom.ts";
import { nothingToPlan, PLAN_RANGES, USUAL_MINUTES } from "../../report/planSections.ts";
import { printedPlan } from "../../report/planText.ts";
import { metresPerSecond, radians } from "../../units.ts";
import type { Given } from "../arguments.ts";
import type { Command } from "../command.ts";
import { InputFailure, UsageFailure } from "../failures.ts";
import { calibrationAt } from "../givenFiles.ts";

/** What may be asked for, by option. */
const RANGES = {
  minutes: PLAN_RANGES.minutes,
  wind: PLAN_RANGES.windSpeed,
  "wind-direction": PLAN_RANGES.windDirection,
} as const;

/** The number that an option holds; undefined where it is not given. */
function numberIn({ options }: Given, name: keyof typeof RANGES): number | undefined {
  const text = options.get(name);
  if (text === undefined) return undefined;
  const value = Number(text);
  const [least, most] = RANGES[name];
  if (!(value >= least && value <= most))
    throw new UsageFailure(`plan: --${name} must be a number from ${least} to ${most}, got ${text}`);
  return value;
}

/** Tells what to sail next. */
export const plan: Command = {
  shape: {
    name: "plan",
    purpose:
      "tells what to sail next to learn what a calibration does not know yet, and what that would tell",
    operands: ["CALIBRATION"],
    options: {
      minutes: { value: "MINUTES", meaning: "how long there is time for; 60" },
      wind: { value: "KN", meaning: "true wind speed of the day; 12 kn" },
      "wind-direction": { value: "DEG", meaning: "where it comes from, from true north; any" },
      "under-sail": { meaning: "no exercise under power" },
    },
  },

  async execute(given, { print }) {
    const [path = ""] = given.operands;
    const minutes = numberIn(given, "minutes") ?? USUAL_MINUTES;
    const [wind, direction] = [numberIn(given, "wind"), numberIn(given, "wind-direction")];
    const windOfDay = {
      ...(wind === undefined ? {} : { windSpeed: metresPerSecond(wind) }),
      ...(direction === undefined ? {} : { windDirection: radians(direction) }),
    };
    const { fit, boat, recording } = await calibrationAt(path);
    const found = planFrom(fit, boat, recording.chosen, {
      ...windOfDay,
      seconds: 60 * minutes,
      underPower: !given.options.has("under-sail"),
    });
    if (found.exercises.length === 0) throw new InputFailure(`${path}: ${nothingToPlan(minutes)}`);
    print(printedPlan({ fit, plan: found, ...windOfDay }));
  },
};
