import { timeOfDay } from "@bothtacks/core/page";
import { element } from "../inputs/labelled.ts";
import type { Bench, BenchState } from "./bench.ts";
import type { Item } from "./legsAndTurns.ts";

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

export const isLeftOut = ({ what, place }: Item, { leftOut }: BenchState): boolean =>
  leftOut[what].includes(place);

/** Legs and turns of a day as buttons along a line of time; one of them is in the order of Tab, the arrow keys lead to the others. */
export class LegsLine {
  readonly element: HTMLElement;
  private readonly buttons: readonly HTMLButtonElement[];

  /**
   * @param label names the line
   * @param tell is told an item that is pointed at, or has the focus
   */
  constructor(
    private readonly items: readonly Item[],
    label: string,
    private readonly bench: Bench,
    private readonly tell: (item: Item) => void,
  ) {
    this.buttons = items.map((item, index) => this.button(item, index));
    this.element = element(
      "div",
      { class: "legs-line", role: "toolbar", "aria-label": label },
      ...this.buttons,
    );
    this.element.addEventListener("keydown", (pressed) => this.step(pressed));
    this.mayHaveFocus(0);
  }

  update(state: BenchState): void {
    this.items.forEach((item, index) => {
      const button = this.buttons[index]!;
      button.setAttribute("aria-pressed", String(isLeftOut(item, state)));
      button.classList.toggle("left-out", isLeftOut(item, state));
    });
    const focused = this.items[this.focused()];
    if (focused) this.tell(focused);
  }

  private focused(): number {
    return this.buttons.findIndex((button) => button.contains(document.activeElement));
  }

  private button(item: Item, index: number): HTMLButtonElement {
    const button = item.what === "legs" ? legButton(item) : turnButton(item);
    button.addEventListener("click", () => void this.bench.leaveOutOrPutBack(item.what, item.place));
    button.addEventListener("pointerenter", () => this.tell(item));
    button.addEventListener("focus", () => {
      this.mayHaveFocus(index);
      this.tell(item);
    });
    return button;
  }

  private mayHaveFocus(chosen: number): void {
    this.buttons.forEach((button, index) => {
      button.tabIndex = index === chosen ? 0 : -1;
    });
  }

  private step(pressed: KeyboardEvent): void {
    const to = STEPS[pressed.key];
    const at = this.focused();
    if (to === undefined || at < 0) return;
    pressed.preventDefault();
    this.buttons[to(at, this.buttons.length - 1)]?.focus();
  }
}
