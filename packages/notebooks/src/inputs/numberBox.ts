import type { Input } from "../contract.ts";
import { element, labelled } from "./labelled.ts";

export interface NumberBoxOptions {
  /** With the unit. */
  readonly label: string;
  readonly initial: number;
  readonly from?: number;
  readonly to?: number;
}

/** A number typed in; what is no number within the range is marked and changes nothing. Never throws. */
export const numberBox = ({ label, initial, from, to }: NumberBoxOptions): Input<number> => ({
  label,
  initial,
  accepts: (value) => !(value < (from ?? value) || value > (to ?? value)),
  draw: (place, change, _, asked) => {
    const range = { min: from ?? false, max: to ?? false };
    const control = element("input", { type: "number", step: "any", required: true, ...range });
    control.value = String(asked);
    control.addEventListener("input", () => {
      const isGood = control.validity.valid;
      control.setAttribute("aria-invalid", String(!isGood));
      if (isGood) change(control.valueAsNumber);
    });
    place.append(labelled(label, control));
    return undefined;
  },
});
