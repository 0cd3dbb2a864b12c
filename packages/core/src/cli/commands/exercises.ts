import { EXERCISE_KINDS, type ExerciseKind } from "../../calibration/boatRecord.ts";
import { EXERCISE_DEFINITIONS } from "../../job/exercises/definitions.ts";
import { EXERCISES } from "../../judge/plannedLeg.ts";
import { CAUTIONS } from "../../report/cautions.ts";
import { printedForm, printedInstructions } from "../../report/exercises/exerciseText.ts";
import { exerciseWords } from "../../report/planWords.ts";
import { heading, list, paragraph } from "../../report/textLines.ts";
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

function kindNamed(word: string, from: string): ExerciseKind {
  const kind = EXERCISE_KINDS.find((name) => name === word);
  if (!kind)
    throw new UsageFailure(`exercises: ${from} must be one of ${EXERCISE_KINDS.join(", ")}, got ${word}`);
  return kind;
}

function formOf(kind: ExerciseKind): string {
  const { form, legend } = EXERCISE_DEFINITIONS[kind];
  if (form === "") throw new InputFailure(`${kind}: has no form; give a log: bothtacks exercise ${kind} LOG`);
  return printedForm(form, legend);
}

/** How to go on from an exercise that was sailed. */
function nextOf(kind: ExerciseKind): readonly string[] {
  const { form, needsForm, takesReference } = EXERCISE_DEFINITIONS[kind];
  const calls = [
    ...(form === "" ? [] : [`bothtacks exercises --form ${kind} > ${kind}.csv`]),
    `bothtacks exercise ${kind} ${form === "" ? "LOG" : `${kind}.csv`} [--boat FOLDER]`,
    ...(takesReference ? [`bothtacks exercise ${kind} ${kind}.csv LOG --reference LOG [--boat FOLDER]`] : []),
  ];
  return [
    ...heading("Then"),
    ...calls.map((call) => `  ${call}`),
    ...(needsForm === undefined ? [] : paragraph(`With a log alone: ${needsForm}.`, "  ")),
  ];
}

const oneExercise = (kind: ExerciseKind): string =>
  [
    ...printedInstructions(kind, EXERCISE_DEFINITIONS[kind]).trimStart().split("\n"),
    ...nextOf(kind),
    ...list("Cautions", CAUTIONS),
  ].join("\n");

function allExercises(): string {
  const all = EXERCISE_KINDS.map((kind) => printedInstructions(kind, EXERCISE_DEFINITIONS[kind]));
  const next = paragraph(
    '"bothtacks exercises KIND" tells of one alone, with --form it gives a form to fill in, and "bothtacks exercise KIND FILE" works out the form or a log. With --boat FOLDER what was found is kept in the boat\'s history, and "bothtacks state --boat FOLDER" shows the whole boat.',
  );
  return [
    "Deliberate exercises, in the order of the work",
    "",
    ...next,
    ...all,
    ...printedLogged(),
    ...list("Cautions", CAUTIONS),
  ].join("\n");
}

/** Tells how each deliberate exercise is sailed, or gives a form to fill in. */
export const exercises: Command = {
  shape: {
    name: "exercises",
    purpose: "tells how the deliberate exercises are sailed, how long they take and what each settles",
    operands: ["[KIND]"],
    options: {
      form: { value: "KIND", meaning: "a form of this exercise to fill in, with an invented example" },
    },
  },

  async execute({ operands: [word], options }, { print }) {
    const wanted = options.get("form");
    if (wanted !== undefined) print(formOf(kindNamed(wanted, "--form")));
    else print(`${word === undefined ? allExercises() : oneExercise(kindNamed(word, "KIND"))}\n`);
    return undefined;
  },
};
