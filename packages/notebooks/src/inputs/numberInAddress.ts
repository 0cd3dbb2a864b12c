import type { Input } from "../contract.ts";
import { element, labelled } from "./labelled.ts";

export interface NumberInAddressOptions {
  readonly label: string;
  /** Its name in the address: "boat" makes `#boat=7`. */
  readonly name: string;
  readonly initial: number;
  /** What the button says that draws another number. */
  readonly another: string;
}

const MOST = 9999;

/**
 * A whole number from 0 to 9999 that stands in the page's address, so that a class which shares the address sees the same.
 * Never throws.
 */
export const numberInAddress = ({
  label,
  name,
  initial,
  another,
}: NumberInAddressOptions): Input<number> => ({
  label,
  initial,
  draw: (place, change) => {
    const control = element("input", { type: "number", min: 0, max: MOST, step: 1, required: true });
    const button = element("button", { type: "button" }, another);
    const refused = element("span", { class: "refused", role: "status" });
    const take = (): void => {
      const written = new URLSearchParams(location.hash.slice(1)).get(name);
      // another part of the address says nothing of the number
      if (written === null) return;
      const number = Number(written);
      const isGood = Number.isInteger(number) && number >= 0 && number <= MOST;
      control.value = String(isGood ? number : initial);
      control.setAttribute("aria-invalid", "false");
      refused.textContent = "";
      change(isGood ? number : initial);
    };
    const go = (number: number): void => location.replace(`#${name}=${number}`);
    control.addEventListener("input", () => {
      const isGood = control.validity.valid;
      control.setAttribute("aria-invalid", String(!isGood));
      refused.textContent = isGood ? "" : `Expected a whole number from 0 to ${MOST}.`;
      if (isGood) go(control.valueAsNumber);
    });
    button.addEventListener("click", () => go(Math.floor(Math.random() * (MOST + 1))));
    place.append(element("div", { class: "answer" }, labelled(label, control), button), refused);
    control.value = String(initial);
    take();
    addEventListener("hashchange", take);
    return () => removeEventListener("hashchange", take);
  },
});
