import {
  IN_PRINT,
  type Json,
  type JsonObject,
  PAGE_LAYOUT,
  PLOTLY_CONFIG,
  unbroken,
} from "@bothtacks/core/page";
import type { Figure, Undraw } from "../contract.ts";
import { drawingSteps } from "./drawingSteps.ts";
import { painted } from "./painted.ts";
import { type Plotly, plotlyLoader } from "./plotly.ts";
import { warmedUp } from "./warmedUp.ts";

/** Paper is as much narrower than a page on a laptop. */
const NARROWER = 0.83;

/** A lesson's figure keeps its shape on paper; the bench, which prints on two pages, gives its figures less height. */
const printHeight = (drawing: HTMLElement, height: number): number =>
  drawing.closest(".bench")
    ? Math.max(IN_PRINT.leastHeight, Math.round(IN_PRINT.shareOfHeight * height))
    : Math.round(NARROWER * height);

const isList = (value: Json): value is readonly Json[] => Array.isArray(value);

/** The data with the names of colours looked up. */
function coloured(value: Json, colours: CSSStyleDeclaration): Json {
  if (typeof value === "string")
    return value.startsWith("--") ? colours.getPropertyValue(value).trim() : value;
  if (isList(value)) return value.map((part) => coloured(part, colours));
  return value !== null && typeof value === "object" ? colouredObject(value, colours) : value;
}

const colouredObject = (value: JsonObject, colours: CSSStyleDeclaration): JsonObject =>
  Object.fromEntries(Object.entries(value).map(([key, part]) => [key, coloured(part, colours)]));

/** From this width on the page is likely read from afar: its text is larger, and so is that of figures. */
const PROJECTOR = matchMedia("(min-width: 1600px)");
const LARGER = 1.25;

/** What is larger: letters and marks, lines, and margins. */
const SIZES = ["size", "width", "thickness", "l", "r", "t", "b"];

/** The same with all sizes that much larger. */
function enlarged(value: Json, key = ""): Json {
  if (typeof value === "number") return SIZES.includes(key) ? LARGER * value : value;
  if (isList(value)) return value.map((part) => enlarged(part));
  return value !== null && typeof value === "object" ? enlargedObject(value) : value;
}

const enlargedObject = (value: JsonObject): JsonObject =>
  Object.fromEntries(Object.entries(value).map(([key, part]) => [key, enlarged(part, key)]));

/** A figure on the page. */
interface Drawn {
  readonly drawing: HTMLElement;
  /** What plotly draws on: it comes to the page when it is whole, so that the page is laid out and painted once. */
  readonly sheet: HTMLElement;
  readonly caption: HTMLElement;
  figure: Figure;
  /** When plotly has done what it was last asked: it goes on after a call, and fails where the figure is taken away meanwhile. */
  done: Promise<unknown>;
}

function shown({ drawing, sheet }: Drawn): void {
  if (!sheet.isConnected) drawing.replaceChildren(sheet);
}

/** How a figure is drawn. */
interface Manner {
  /** So many of its traces; all where it is not told. */
  readonly traces?: number;
  readonly printed?: boolean;
}

/** Draws figures, and draws them again when the page's width or colours change and for print. */
export class Figures {
  private readonly all = new Map<HTMLElement, Drawn>();
  private readonly loaded = plotlyLoader();
  private readonly widths: ResizeObserver;
  /** Places whose figures are to be drawn: one at a time, a large one in pieces, so that the page answers in between. */
  private readonly waiting = new Set<HTMLElement>();
  private preparing: Promise<Plotly> | undefined;
  private drawingAll: Promise<void> | undefined;

  constructor() {
    this.widths = new ResizeObserver((changes) => this.drawSome(changes.map(({ target }) => target)));
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.drawAll());
    addEventListener("beforeprint", () => this.print(true));
    addEventListener("afterprint", () => this.print(false));
  }

  /** Draws a figure, or draws it anew where one stands in that place already. */
  readonly draw = (place: HTMLElement, figure: Figure): Undraw => {
    const drawn = this.all.get(place) ?? this.begun(place, figure);
    drawn.figure = figure;
    drawn.drawing.setAttribute("aria-label", figure.label);
    drawn.drawing.style.minHeight = `${figure.height}px`;
    drawn.caption.textContent = unbroken(figure.caption);
    this.drawSoon([place]);
    return () => this.undraw(place);
  };

  /** Starts plotly ahead of the first figure, where one is sure to come. */
  readonly prepare = (): void => {
    // a figure says why plotly did not start
    this.ready().catch(() => {});
  };

  private ready(): Promise<Plotly> {
    this.preparing ??= this.loaded().then(warmedUp);
    return this.preparing;
  }

  private drawSoon(places: Iterable<HTMLElement>): void {
    for (const place of places) {
      this.waiting.add(place);
      this.all.get(place)!.drawing.ariaBusy = "true";
    }
    // without a figure, plotly is not asked for
    if (this.waiting.size === 0) return;
    this.drawingAll ??= this.drawWaiting().finally(() => {
      this.drawingAll = undefined;
    });
  }

  private async drawWaiting(): Promise<void> {
    try {
      const plotly = await this.ready();
      for (const place of this.waiting) {
        this.waiting.delete(place);
        await this.drawInSteps(plotly, place);
      }
    } catch (error) {
      for (const place of this.waiting) this.all.get(place)?.drawing.replaceChildren(String(error));
      this.waiting.clear();
    }
  }

  /** Draws a figure, piece by piece where none stands there yet; leaves it where it is to be drawn otherwise meanwhile. */
  private async drawInSteps(plotly: Plotly, place: HTMLElement): Promise<void> {
    const drawn = this.all.get(place);
    if (!drawn) return;
    const isLeft = (): boolean => this.all.get(place) !== drawn || this.waiting.has(place);
    const all = drawn.figure.traces.length;
    for (const traces of drawn.sheet.isConnected ? [all] : drawingSteps(drawn.figure)) {
      await painted();
      if (isLeft()) return;
      this.drawOne(plotly, drawn, { traces });
      await drawn.done;
    }
    if (!drawn.sheet.isConnected) await painted();
    if (isLeft()) return;
    shown(drawn);
    drawn.drawing.ariaBusy = "false";
  }

  private begun(place: HTMLElement, figure: Figure): Drawn {
    const made = (tag: string): HTMLElement => document.createElement(tag);
    const [box, drawing, sheet, caption] = [made("figure"), made("div"), made("div"), made("figcaption")];
    drawing.className = "drawing";
    drawing.setAttribute("role", "img");
    box.append(drawing, caption);
    place.replaceChildren(box);
    const drawn = { drawing, sheet, caption, figure, done: Promise.resolve() };
    this.all.set(place, drawn);
    this.widths.observe(place);
    return drawn;
  }

  private undraw(place: HTMLElement): void {
    const drawn = this.all.get(place);
    if (drawn) void drawn.done.finally(() => globalThis.Plotly?.purge(drawn.sheet));
    this.widths.unobserve(place);
    this.waiting.delete(place);
    this.all.delete(place);
  }

  private drawOne(plotly: Plotly, drawn: Drawn, { traces, printed = false }: Manner): void {
    const { drawing, sheet, figure } = drawn;
    const colours = getComputedStyle(document.documentElement);
    const width = printed ? IN_PRINT.width : drawing.clientWidth;
    const height = printed ? printHeight(drawing, figure.height) : figure.height;
    const isLarge = PROJECTOR.matches && !printed;
    const part = figure.traces.slice(0, traces);
    const [sized, own] = isLarge
      ? [part.map(enlargedObject), enlargedObject(figure.layout)]
      : [part, figure.layout];
    const layout = { ...own, ...PAGE_LAYOUT, width, height: isLarge ? LARGER * height : height };
    const data = coloured(sized, colours);
    drawn.done = Promise.resolve(plotly.react(sheet, data, colouredObject(layout, colours), PLOTLY_CONFIG));
  }

  private drawSome(places: readonly Element[]): void {
    const visible = [...this.all].filter(
      ([place, { drawing }]) => places.includes(place) && drawing.clientWidth > 0,
    );
    this.drawSoon(visible.map(([place]) => place));
  }

  private drawAll(): void {
    this.drawSome([...this.all.keys()]);
  }

  private print(printed: boolean): void {
    document.documentElement.classList.toggle("printing", printed);
    const plotly = globalThis.Plotly;
    if (!plotly) return;
    for (const drawn of this.all.values()) {
      this.drawOne(plotly, drawn, { printed });
      shown(drawn);
    }
  }
}
