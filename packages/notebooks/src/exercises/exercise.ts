import { plain, unbroken } from "@bothtacks/core/page";
import type { View } from "../contract.ts";
import { element, labelled } from "../inputs/labelled.ts";

/** A question with a number for an answer. */
export interface Question {
  readonly question: string;
  /** What the reader types the number for, with its unit. */
  readonly label: string;
  readonly answer: number;
  /** How far an answer may be off, in its unit. */
  readonly within: number;
  /** Whether the answer is a direction in degrees: 359 is near 1 then. */
  readonly isDirection?: boolean;
  /** Decimals of the answer where it is said. */
  readonly decimals?: number;
  /** Where to look, for an answer that is off. */
  readonly hint: string;
  /** How the answer comes about. */
  readonly way: string;
}

/** An exercise on the page; the question is there for tests. */
export interface Exercise extends View {
  readonly asked: Question;
}

/** A number as it is written down: with a comma or a point, and its unit behind it, if any. */
const WRITTEN = /^([+\-−]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(?:°|%|kn|knots?|deg)?$/;

/** The number that someone typed; NaN where it is none. Never throws. */
export function numberTyped(text: string): number {
  const [, digits] = WRITTEN.exec(text.trim()) ?? [];
  return digits === undefined ? Number.NaN : Number(digits.replace(",", ".").replace("−", "-"));
}

/** Whether an answer is near enough. Never throws; NaN is not. */
export function isRight(given: number, { answer, within, isDirection = false }: Question): boolean {
  const off = Math.abs(given - answer);
  return (isDirection ? Math.min(off % 360, 360 - (off % 360)) : off) <= within;
}

function draw(place: HTMLElement, asked: Question): void {
  const { question, label, answer, decimals = 1, hint, way } = asked;
  const control = element("input", { type: "text", inputmode: "decimal", autocomplete: "off" });
  const said = element("div", { role: "status", class: "said" });
  const wayShown = element(
    "details",
    {},
    element("summary", {}, "The way to it"),
    element("p", {}, unbroken(way)),
  );
  wayShown.hidden = true;
  const button = element("button", { type: "submit" }, "Check");
  const form = element("form", { class: "answer" }, labelled(label, control), button);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const given = numberTyped(control.value);
    const right = isRight(given, asked);
    const words = Number.isNaN(given) ? "Type a number." : hint;
    const shown = plain(answer, decimals);
    said.replaceChildren(
      element("p", { class: right ? "right" : "off" }, right ? `Right: ${shown}.` : `Not yet. ${words}`),
    );
    if (!Number.isNaN(given)) wayShown.hidden = false;
    if (right) wayShown.open = true;
  });
  const box = element(
    "div",
    { class: "exercise" },
    element("p", {}, unbroken(question)),
    form,
    said,
    wayShown,
  );
  place.append(box);
}

/** A question whose answer the page checks. The way to it can be unfolded after the first try. Never throws. */
export const exercise = (asked: Question): Exercise => ({
  asked,
  draw: (place) => {
    draw(place, asked);
    return undefined;
  },
});
