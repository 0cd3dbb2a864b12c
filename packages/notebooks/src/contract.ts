/**
 * What the cells of a notebook hand to the page, and what the page hands to them. Nothing here touches a document by
 * itself: what is drawn is drawn by a function that only a page calls, so the same cell runs in Node.
 *
 * A cell is a fence of three backticks marked `ts`: plain TypeScript, which may `await`. What it declares at its top level (`const`,
 * functions, classes, types, imports) may be used by the cells below it, and nothing that stands below. A value in prose
 * is an expression between double braces, `{{threeFigures(degrees(wind.direction))}}`. Plain objects and lists that a
 * cell declares are frozen when it has run.
 */
import type { Json, JsonObject, Markup, Figure as ReportFigure } from "@bothtacks/core/page";

export type { Json, JsonObject, Markup };

/** Data for plotly with the words around it, plain and whole: a test reads it in Node, a page draws it. */
export type Figure = Omit<ReportFigure, "id">;

/** Clears up what a drawing holds open (listeners, timers, workers); the page removes the elements itself. */
export type Undraw = () => void;

/** What the page does for a view or an input while it draws. */
export interface Page {
  /** Draws a figure, or draws it anew where one stands in that place already; follows width, light and dark, print. */
  readonly drawFigure: (place: HTMLElement, figure: Figure) => Undraw;
  /** Gets ready to draw, where figures are sure to come: what draws them takes its time to start. */
  readonly prepareFigures: () => void;
  /** The source text of plotly, for a report that is saved; rejects where nothing on the page draws figures. */
  readonly plotlySource: () => Promise<string>;
}

/** Something of one's own on the page; it may go on changing by itself until it is undrawn. */
export interface View {
  /** @param place an empty element that belongs to the view */
  readonly draw: (place: HTMLElement, page: Page) => Undraw | undefined;
}

/** What `show` takes. A string is a paragraph of plain text; markup comes from the template tag `html`. */
export type Shown = string | number | Markup | Figure | View;

/** A question to the reader. Each input has its own state, however many share a label. */
export interface Input<Value> {
  /** Says what is asked, unit included; it labels the control. */
  readonly label: string;
  /** What holds until the reader changes it. */
  readonly initial: Value;
  /**
   * Draws the control.
   *
   * @param place an empty element that belongs to the input
   * @param change to be called with each new value; what depends on it runs again
   * @param value where the control begins: `initial`, or what the reader answered before the cell ran again
   */
  draw(place: HTMLElement, change: (value: Value) => void, page: Page, value: Value): Undraw | undefined;
  /** Whether an answer from before the cell ran again may stand; without this none does. */
  accepts?(answer: Value): boolean;
}

/** Words that every cell may use without importing them. */
export interface CellWords {
  /**
   * Puts the input on the page and gives the answer that holds. It stands alone to the right of a cell's
   * `const name = ask(…)`: `name` is the answer in all cells below, which run again when it changes; its own cell does not,
   * and so may not use it. In Node the answer is the one given to the run by that name, else the initial value.
   */
  readonly ask: <Value>(input: Input<Value>) => Value;
  /** Puts something on the page, at once, below what the cell has shown already. */
  readonly show: (...shown: readonly Shown[]) => void;
  /** Aborted when this run of the cell is out of date: give it to long work. */
  readonly signal: AbortSignal;
}
