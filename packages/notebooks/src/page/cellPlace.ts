import { html } from "@bothtacks/core/page";
import type { Input, Page, Shown, Undraw, View } from "../contract.ts";
import type { Outcome } from "../run/stage.ts";

/** One thing that a cell has shown. */
interface Slot {
  readonly element: HTMLElement;
  undraw: Undraw | undefined;
  isFigure: boolean;
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

const isFigure = (shown: Shown): boolean => typeof shown === "object" && "traces" in shown;

/** The place of one cell on the page. What a cell shows again takes the place of what it showed before. */
export class CellPlace {
  private readonly slots: Slot[] = [];
  private next = 0;

  /** @param place the element that the Markdown left for the cell: a span for a value in prose */
  constructor(
    private readonly place: HTMLElement,
    private readonly line: number,
    private readonly page: Page,
  ) {}

  begin(): void {
    this.next = 0;
    this.place.ariaBusy = "true";
  }

  show(shown: Shown): void {
    const slot = this.slot(isFigure(shown));
    if (typeof shown === "string" || typeof shown === "number") this.words(slot, String(shown));
    else if ("markup" in shown) slot.element.innerHTML = shown.markup;
    else if ("traces" in shown) slot.undraw = this.page.drawFigure(slot.element, shown);
    else slot.undraw = this.drawn(slot, shown);
  }

  ask(input: Input<unknown>, change: (value: unknown) => void, value: unknown): void {
    const slot = this.slot(false);
    slot.element.classList.add("input");
    slot.undraw = input.draw(slot.element, change, this.page, value);
  }

  end(outcome: Outcome): void {
    if (outcome.status === "held") this.begin();
    if (outcome.status === "failed") this.trouble(wordsOf(outcome.error));
    if (outcome.status === "held") this.held(outcome.line);
    for (const { element, undraw } of this.slots.splice(this.next)) {
      undraw?.();
      element.remove();
    }
    this.place.ariaBusy = "false";
  }

  private get isInProse(): boolean {
    return this.place.tagName === "SPAN";
  }

  /** The next slot, empty unless a figure takes the place of a figure. */
  private slot(ofFigure: boolean): Slot {
    const slot = this.slots[this.next] ?? this.newSlot();
    this.next += 1;
    if (!(slot.isFigure && ofFigure)) {
      slot.undraw?.();
      slot.undraw = undefined;
      slot.element.replaceChildren();
      slot.element.className = "shown";
    }
    slot.isFigure = ofFigure;
    return slot;
  }

  private newSlot(): Slot {
    const element = document.createElement(this.isInProse ? "span" : "div");
    this.place.append(element);
    const slot = { element, undraw: undefined, isFigure: false };
    this.slots.push(slot);
    return slot;
  }

  private words({ element }: Slot, text: string): void {
    if (this.isInProse) element.textContent = text;
    else element.innerHTML = html`<p>${text}</p>`.markup;
  }

  private drawn({ element }: Slot, view: View): Undraw | undefined {
    return view.draw(element, this.page);
  }

  private trouble(words: string): void {
    const { element } = this.slot(false);
    element.classList.add("trouble");
    const said = html`<strong>Line ${this.line}:</strong> ${words}`;
    element.innerHTML = this.isInProse ? said.markup : html`<p role="alert">${said}</p>`.markup;
  }

  private held(line: number): void {
    const { element } = this.slot(false);
    element.classList.add("held");
    element.innerHTML = this.isInProse ? "…" : html`<p>This waits for line ${line}, which failed.</p>`.markup;
  }
}
