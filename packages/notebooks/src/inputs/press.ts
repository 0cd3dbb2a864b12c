import { html } from "@bothtacks/core/page";
import type { Input, Markup } from "../contract.ts";
import { element } from "./labelled.ts";

/** A button for work that takes its time: how often it was pressed, 0 at first. Never throws. */
export const press = ({ label }: { label: string }): Input<number> => ({
  label,
  initial: 0,
  draw: (place, change) => {
    let presses = 0;
    const button = element("button", { type: "button" }, label);
    button.addEventListener("click", () => {
      presses += 1;
      change(presses);
    });
    place.append(button);
    return undefined;
  },
});

/** Words that are seen only while the cell that shows them is at work. Never throws. */
export const whileBusy = (words: string): Markup => html`<p class="while-busy" role="status">${words}</p>`;
