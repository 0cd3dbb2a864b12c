import { element } from "../inputs/labelled.ts";
import type { Bench } from "./bench.ts";
import { Days } from "./days.ts";
import { daysOf, itemWords, leftOutCount } from "./legsAndTurns.ts";
import { isLeftOut } from "./legsLine.ts";
import { movedPart, nowWords } from "./moved.ts";
import { type Part, whenChanged } from "./part.ts";

const HINT = "A block or a line tells here what it is.";

const EXPLANATION =
  "Each block is a steady leg, each line between them a turn. Press one to leave it out, for instance a leg on which the engine helped or a tack in which the wind shifted; press it again to put it back. The answer follows. With the keyboard: Tab leads here, the arrow keys along the line, the space bar presses.";

/** What the marks mean. */
const key = (): HTMLElement =>
  element(
    "ul",
    { class: "key quiet" },
    element("li", {}, element("span", { class: "tack starboard" }, "starboard tack"), ", the upper blocks"),
    element("li", {}, element("span", { class: "tack port" }, "port tack"), ", the lower"),
    element("li", {}, element("span", { class: "sample power" }), "under power"),
    ...(["tack", "gybe", "other"] as const).map((kind) =>
      element(
        "li",
        {},
        element("span", { class: `sample turn turn-${kind}` }, element("span", { class: "mark" })),
        kind === "other" ? "other turn" : kind,
      ),
    ),
    element("li", {}, element("span", { class: "sample struck" }, element("s", {}, "9")), "left out"),
  );

/** Legs and turns, each of which can be left out and put back. */
export function timeline(bench: Bench): Part {
  const told = element("p");
  const now = element("p", { class: "quiet" });
  const box = element("div", { class: "told" }, told, now);
  const days = new Days(bench, (item) => {
    const { state } = bench;
    told.textContent = `${item.name}, ${item.more}: ${itemWords(item, isLeftOut(item, state), state.answered)}`;
    box.classList.add("stays");
  });
  const count = element("span");
  const putBack = element("button", { type: "button" }, "Put all back");
  putBack.addEventListener("click", () => void bench.putAllBack());
  const moved = movedPart();
  const section = element(
    "section",
    { hidden: true, class: "timeline" },
    element("h2", { id: "legs" }, "Legs and turns"),
    element("p", {}, EXPLANATION),
    key(),
    element("div", {}, days.element, box),
    element("p", { class: "doors" }, count, putBack),
    moved.element,
  );
  const fill = whenChanged(
    ({ answered }) => answered?.summary,
    (summary) => {
      section.hidden = summary === undefined || summary.sailing.legs.length === 0;
      days.fill(summary ? daysOf(summary) : []);
      told.textContent = HINT;
      box.classList.remove("stays");
    },
  );
  const press = whenChanged(
    ({ leftOut, answered }) => JSON.stringify([leftOut, answered?.made]),
    (_, state) => days.update(state),
  );
  return {
    element: section,
    update: (state) => {
      fill(state);
      press(state);
      moved.update(state);
      now.textContent = state.doing ? "…" : state.answered ? nowWords(state.answered) : "";
      count.textContent = leftOutCount(state.leftOut);
      putBack.disabled = state.leftOut.legs.length + state.leftOut.turns.length === 0;
    },
  };
}
