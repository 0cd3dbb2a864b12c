import { timeOfDay } from "@bothtacks/core/page";
import { element } from "../inputs/labelled.ts";
import type { Bench, BenchState } from "./bench.ts";
import { type Item, itemsOf, itemWords, leftOutCount } from "./legsAndTurns.ts";
import { movedPart, nowWords } from "./moved.ts";
import { type Part, whenChanged } from "./part.ts";

/** Keys that lead along the line, and where to. */
const STEPS: Readonly<Record<string, (at: number, last: number) => number>> = {
  ArrowRight: (at, last) => Math.min(at + 1, last),
  ArrowDown: (at, last) => Math.min(at + 1, last),
  ArrowLeft: (at) => Math.max(at - 1, 0),
  ArrowUp: (at) => Math.max(at - 1, 0),
  Home: () => 0,
  End: (_, last) => last,
};

/** Words that are read out and not shown. */
const unseen = (words: string): HTMLElement => element("span", { class: "unseen" }, words);

function legButton({ look, place, start, length, more }: Item): HTMLButtonElement {
  const mark = element("span", { class: look === "power" ? "mark" : `mark tack ${look}` }, String(place + 1));
  const when = element("span", { class: "when", "aria-hidden": "true" }, timeOfDay(start).slice(0, 5));
  const button = element(
    "button",
    { type: "button", class: `leg ${look}` },
    unseen("Leg "),
    mark,
    unseen(` ${more}`),
    when,
  );
  button.style.setProperty("--minutes", length.toFixed(1));
  return button;
}

const turnButton = ({ look, name, more }: Item): HTMLButtonElement =>
  element(
    "button",
    { type: "button", class: `turn turn-${look}`, "aria-label": `${name}, ${more}` },
    element("span", { class: "mark" }),
  );

const isLeftOut = ({ what, place }: Item, { leftOut }: BenchState): boolean => leftOut[what].includes(place);

/** Legs and turns as buttons along a line of time; one of them is in the order of Tab, the arrow keys lead to the others. */
class Line {
  readonly element = element("div", { class: "legs-line", role: "toolbar", "aria-label": "Legs and turns" });
  private buttons: readonly HTMLButtonElement[] = [];
  private items: readonly Item[] = [];

  constructor(
    private readonly bench: Bench,
    private readonly tell: (words: string) => void,
  ) {
    this.element.addEventListener("keydown", (pressed) => this.step(pressed));
  }

  fill(items: readonly Item[]): void {
    this.items = items;
    this.buttons = items.map((item, index) => this.button(item, index));
    const days = items.map(({ day }) => (day === undefined ? [] : [element("span", { class: "day" }, day)]));
    this.element.replaceChildren(...this.buttons.flatMap((button, index) => [...days[index]!, button]));
    this.mayHaveFocus(0);
  }

  update(state: BenchState): void {
    this.items.forEach((item, index) => {
      const button = this.buttons[index]!;
      button.setAttribute("aria-pressed", String(isLeftOut(item, state)));
      button.classList.toggle("left-out", isLeftOut(item, state));
    });
    const focused = this.buttons.findIndex((button) => button.contains(document.activeElement));
    if (focused >= 0) this.describe(focused);
  }

  private button(item: Item, index: number): HTMLButtonElement {
    const button = item.what === "legs" ? legButton(item) : turnButton(item);
    button.addEventListener("click", () => void this.bench.leaveOutOrPutBack(item.what, item.place));
    button.addEventListener("pointerenter", () => this.describe(index));
    button.addEventListener("focus", () => {
      this.mayHaveFocus(index);
      this.describe(index);
    });
    return button;
  }

  private describe(index: number): void {
    const item = this.items[index]!;
    const { state } = this.bench;
    this.tell(`${item.name}, ${item.more}: ${itemWords(item, isLeftOut(item, state), state.answered)}`);
  }

  private mayHaveFocus(chosen: number): void {
    this.buttons.forEach((button, index) => {
      button.tabIndex = index === chosen ? 0 : -1;
    });
  }

  private step(pressed: KeyboardEvent): void {
    const to = STEPS[pressed.key];
    const at = this.buttons.findIndex((button) => button.contains(document.activeElement));
    if (to === undefined || at < 0) return;
    pressed.preventDefault();
    this.buttons[to(at, this.buttons.length - 1)]?.focus();
  }
}

const HINT = "A block or a line tells here what it is.";

const EXPLANATION =
  "Each block is a steady leg, each line between them a turn. Press one to leave it out, for instance a leg with the engine running or a tack in which the wind shifted; press it again to put it back. The answer follows. With the keyboard: Tab leads here, the arrow keys along the line, the space bar presses.";

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
  const line = new Line(bench, (words) => {
    told.textContent = words;
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
    element("div", {}, line.element, box),
    element("p", { class: "doors" }, count, putBack),
    moved.element,
  );
  const fill = whenChanged(
    ({ answered }) => answered?.summary,
    (summary) => {
      section.hidden = summary === undefined;
      line.fill(summary ? itemsOf(summary) : []);
      told.textContent = HINT;
      box.classList.remove("stays");
    },
  );
  const press = whenChanged(
    ({ leftOut, answered }) => JSON.stringify([leftOut, answered?.made]),
    (_, state) => line.update(state),
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
