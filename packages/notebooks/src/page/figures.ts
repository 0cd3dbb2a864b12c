import { type Json, type JsonObject, unbroken } from "@bothtacks/core/page";
import type { Figure, Undraw } from "../contract.ts";
import { type Plotly, plotlyLoader } from "./plotly.ts";

const CONFIG = {
  displaylogo: false,
  showSendToCloud: false,
  plotlyServerURL: "",
  displayModeBar: false,
  scrollZoom: false,
};

const HOVER = { bgcolor: "--raised", bordercolor: "--line", font: { color: "--ink" } };

/** What A4 holds between its margins, px. */
const PRINT_WIDTH = 680;

/** Paper shows less height, and needs less. */
const printHeight = (height: number): number => Math.max(260, Math.round(0.6 * height));

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

/** A figure on the page. */
interface Drawn {
  readonly drawing: HTMLElement;
  readonly caption: HTMLElement;
  figure: Figure;
}

/** Draws figures, and draws them again when the page's width or colours change and for print. */
export class Figures {
  private readonly all = new Map<HTMLElement, Drawn>();
  private readonly loaded = plotlyLoader();
  private readonly widths: ResizeObserver;

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
    void this.loaded().then(
      (plotly) => this.drawOne(plotly, place),
      (error: unknown) => void drawn.drawing.replaceChildren(String(error)),
    );
    return () => this.undraw(place);
  };

  private begun(place: HTMLElement, figure: Figure): Drawn {
    const [box, drawing, caption] = ["figure", "div", "figcaption"].map((tag) => document.createElement(tag));
    drawing!.className = "drawing";
    drawing!.setAttribute("role", "img");
    box!.append(drawing!, caption!);
    place.replaceChildren(box!);
    const drawn = { drawing: drawing!, caption: caption!, figure };
    this.all.set(place, drawn);
    this.widths.observe(place);
    return drawn;
  }

  private undraw(place: HTMLElement): void {
    const drawn = this.all.get(place);
    if (drawn) globalThis.Plotly?.purge(drawn.drawing);
    this.widths.unobserve(place);
    this.all.delete(place);
  }

  private drawOne(plotly: Plotly, place: HTMLElement, printed = false): void {
    const drawn = this.all.get(place);
    if (!drawn) return;
    const { drawing, figure } = drawn;
    const colours = getComputedStyle(document.documentElement);
    const width = printed ? PRINT_WIDTH : drawing.clientWidth;
    const height = printed ? printHeight(figure.height) : figure.height;
    const layout = { ...figure.layout, hoverlabel: HOVER, dragmode: false, width, height };
    plotly.react(drawing, coloured(figure.traces, colours), colouredObject(layout, colours), CONFIG);
  }

  private drawSome(places: readonly Element[]): void {
    const plotly = globalThis.Plotly;
    if (!plotly) return;
    for (const [place, { drawing }] of this.all)
      if (places.includes(place) && drawing.clientWidth > 0) this.drawOne(plotly, place);
  }

  private drawAll(): void {
    this.drawSome([...this.all.keys()]);
  }

  private print(printed: boolean): void {
    document.documentElement.classList.toggle("printing", printed);
    const plotly = globalThis.Plotly;
    if (plotly) for (const place of this.all.keys()) this.drawOne(plotly, place, printed);
  }
}
