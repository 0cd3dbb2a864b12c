import { unbroken } from "@bothtacks/core/page";
import type { View } from "../contract.ts";
import { element } from "../inputs/labelled.ts";

/** A question with one of several answers. */
export interface ChoiceQuestion {
  readonly question: string;
  readonly options: readonly string[];
  readonly answer: string;
  /** Where to look, for an answer that is off. */
  readonly hint: string;
  /** Why it is so. */
  readonly way: string;
}

/** An exercise on the page; the question is there for tests. */
export interface ChoiceExercise extends View {
  readonly asked: ChoiceQuestion;
}

function draw(place: HTMLElement, { question, options, answer, hint, way }: ChoiceQuestion): void {
  const radios = options.map((value) =>
    element("input", { type: "radio", name: "answer", value, required: true }),
  );
  const labels = radios.map((radio, index) =>
    element("label", { class: "option" }, radio, options[index] ?? ""),
  );
  const said = element("div", { role: "status", class: "said" });
  const wayShown = element("details", {}, element("summary", {}, "Why"), element("p", {}, unbroken(way)));
  wayShown.hidden = true;
  const group = element(
    "fieldset",
    { class: "options" },
    element("legend", {}, unbroken(question)),
    ...labels,
  );
  const form = element("form", {}, group, element("button", { type: "submit" }, "Check"));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const isRight = radios.find(({ checked }) => checked)?.value === answer;
    const words = isRight ? `Right: ${answer}.` : `Not yet. ${hint}`;
    said.replaceChildren(element("p", { class: isRight ? "right" : "off" }, words));
    wayShown.hidden = false;
    if (isRight) wayShown.open = true;
  });
  place.append(element("div", { class: "exercise" }, form, said, wayShown));
}

/**
 * A question whose answer is one of several, which the page checks.
 *
 * @throws RangeError where the answer is none of the options
 */
export function choiceExercise(asked: ChoiceQuestion): ChoiceExercise {
  if (!asked.options.includes(asked.answer))
    throw new RangeError(`choiceExercise: "${asked.answer}" is not among the options`);
  return {
    asked,
    draw: (place) => {
      draw(place, asked);
      return undefined;
    },
  };
}
