import { counted } from "@bothtacks/core/page";
import { element } from "../inputs/labelled.ts";
import type { Bench, BenchState } from "./bench.ts";
import { type DayOfItems, type Item, leftOutWords } from "./legsAndTurns.ts";
import { isLeftOut, LegsLine } from "./legsLine.ts";

/** Blocks and lines that stand there from the beginning, at most: with more, a day is laid out when it is opened. */
const MOST_AT_ONCE = 240;

const dayWords = ({ items }: DayOfItems): string => {
  const legs = items.filter(({ what }) => what === "legs").length;
  return `${counted(legs, "leg")}, ${counted(items.length - legs, "turn")}`;
};

/** One of several days: folded, it says what it holds. */
class Day {
  readonly element: HTMLDetailsElement;
  private readonly count = element("span", { class: "quiet" });
  private line: LegsLine | undefined;

  constructor(
    private readonly of: DayOfItems,
    private readonly bench: Bench,
    private readonly tell: (item: Item) => void,
  ) {
    this.element = element("details", { class: "day" }, element("summary", {}, `${of.day} `, this.count));
    this.element.addEventListener("toggle", () => this.layOut());
  }

  open(): void {
    this.element.open = true;
    this.layOut();
  }

  update(state: BenchState): void {
    const left = leftOutWords(this.of.items.filter((item) => isLeftOut(item, state)));
    this.count.textContent = left === "" ? dayWords(this.of) : `${dayWords(this.of)}; ${left} left out`;
    this.line?.update(state);
  }

  private layOut(): void {
    if (this.line || !this.element.open) return;
    this.line = new LegsLine(this.of.items, `Legs and turns of ${this.of.day}`, this.bench, this.tell);
    this.line.update(this.bench.state);
    this.element.append(this.line.element);
  }
}

/** Legs and turns day by day; a single day has no heading. */
export class Days {
  readonly element = element("div", { class: "days" });
  private lines: readonly { readonly update: (state: BenchState) => void }[] = [];

  constructor(
    private readonly bench: Bench,
    private readonly tell: (item: Item) => void,
  ) {}

  fill(days: readonly DayOfItems[]): void {
    const [only, ...others] = days;
    if (only && others.length === 0) {
      const line = new LegsLine(only.items, "Legs and turns", this.bench, this.tell);
      this.lines = [line];
      this.element.replaceChildren(line.element);
      return;
    }
    const lines = days.map((day) => new Day(day, this.bench, this.tell));
    this.lines = lines;
    this.element.replaceChildren(...lines.map((day) => day.element));
    const all = days.reduce((sum, { items }) => sum + items.length, 0);
    if (all <= MOST_AT_ONCE) for (const day of lines) day.open();
  }

  update(state: BenchState): void {
    for (const line of this.lines) line.update(state);
  }
}
