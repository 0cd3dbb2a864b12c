import { EXERCISE_KINDS } from "../../calibration/boatRecord.ts";
import { EXERCISE_DEFINITIONS } from "../../job/exercises/definitions.ts";
import { EXERCISES } from "../../judge/plannedLeg.ts";
import { CAUTIONS } from "../../report/cautions.ts";
import { printedInstructions } from "../../report/exercises/exerciseText.ts";
import { exerciseWords } from "../../report/planWords.ts";
import { list, paragraph } from "../../report/textLines.ts";
import type { Command } from "../command.ts";
import { InputFailure, UsageFailure } from "../failures.ts";

/** Exercises that are logged, and worked out together with everything else. */
const printedLogged = (): readonly string[] => [
  ...list("Logged, and worked out by calibrate", exerciseWords({ exercises: EXERCISES })),
  "",
  ...paragraph(
    "With the sails down there is no upwash, no heel, and nothing to be taken for granted of how she sails: straight into the wind and away from it tells the masthead offset, the wind speed and, as reciprocal runs, the boat speed; circles tell the compass and the current. Under sail both tacks at each angle tell upwash, leeway and heel. The command plan picks from these what a boat still needs.",
    "  ",
  ),
];

/** Tells how each deliberate exercise is sailed, or gives a form to fill in. */
export const exercises: Command = {
  shape: {
    name: "exercises",
    purpose: "tells how the deliberate exercises are sailed, how long they take and what each settles",
    operands: [],
    options: {
      form: { value: "KIND", meaning: "a form of this exercise to fill in, with an invented example" },
    },
  },

  async execute({ options }, { print }) {
    const wanted = options.get("form");
    if (wanted === undefined) {
      const all = EXERCISE_KINDS.map((kind) => printedInstructions(kind, EXERCISE_DEFINITIONS[kind]));
      print(`${["Deliberate exercises, in the order of the work", ...all].join("\n")}\n`);
      print(`${[...printedLogged(), ...list("Cautions", CAUTIONS)].join("\n")}\n`);
      return undefined;
    }
    const kind = EXERCISE_KINDS.find((name) => name === wanted);
    if (!kind)
      throw new UsageFailure(`exercises: --form must be one of ${EXERCISE_KINDS.join(", ")}, got ${wanted}`);
    const { form } = EXERCISE_DEFINITIONS[kind];
    if (form === "")
      throw new InputFailure(`${kind}: has no form; give a log: bothtacks exercise ${kind} LOG`);
    print(form);
    return undefined;
  },
};
